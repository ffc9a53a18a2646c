/** An element of the page that is always there. */
export const byId = <E extends HTMLElement>(id: string): E => document.getElementById(id) as E;
