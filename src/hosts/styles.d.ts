/** Style sheets that webpack puts into the pages. */
declare module '*.css';
