/** Built-in functions that the table of known results holds no formula for. */
const UNPROVEN: ReadonlySet<string> = new Set<string>();

/** Whether the table of known results proves the engine on a function. */
export const isProvenByTable = (name: string): boolean => !UNPROVEN.has(name);
