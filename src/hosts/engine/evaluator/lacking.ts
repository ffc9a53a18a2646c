/** What a formula needs and the calculation here lacks: the message is a noun with its details. */
export class Lacking extends Error {}
