declare const __webpack_hash__: string;

/** Names the build that a script is of: scripts of one build have the same. */
export const BUILD = __webpack_hash__;
