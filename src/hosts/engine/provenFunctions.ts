/** Built-in functions of which the table of known results holds but a part of what they give. */
const UNPROVEN: ReadonlySet<string> = new Set<string>();

/** Whether the table of known results proves the engine on a function. */
export const isProvenByTable = (name: string): boolean => !UNPROVEN.has(name);
