import { massUnitIn } from './units';

// What words of a header say it is of.

export const isName = (header: string): boolean => /^names?$/i.test(header.trim());
export const isOfWholeRoom = (header: string): boolean =>
  /capacit|\bholds?\b|places|spaces|total/i.test(header) && !isOfShelves(header);
/** Whether a header names shelves, or what stands for them. */
export const isOfShelves = (header: string): boolean => /shel|rack|tier|level|bay|board|plank/i.test(header);

/** The days until a flush and the mass that it gave are no share of the crop. */
export const isNoShare = (header: string): boolean =>
  /\b(?:days?|weeks?|wks?|after|until|from|date)\b/i.test(header) || massUnitIn(header) !== undefined;

export const isOfEach = (header: string): boolean =>
  /(?:^|\s)(?:per|each|je|pro|par|por|pr)\s|\//i.test(header.trim());

export const isQuantity = (header: string): boolean => /^(?:qty|quantity|amount)\.?$/i.test(header.trim());
