/// <reference types="office-js" />

/** Whether this Excel has a set of the vendor's calls; undefined until office.js knows its host. */
export function supports(set: string, version: string): boolean | undefined {
  return (Office as Partial<typeof Office>).context?.requirements?.isSetSupported(set, version);
}
