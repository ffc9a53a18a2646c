/** Variables of LET and LAMBDA have marks of their own in files, and read alike in any letters. */
export const variableName = (name: string): string => name.toLowerCase().replace(/^_xl[po][mp]\./, '');
