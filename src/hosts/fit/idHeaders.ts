/** `harvest_id` names a record; it is no figure and no day of it. */
export const isOfIds = (header: string): boolean =>
  /(?:^|[\s_])(?:id|code|uuid)$/i.test(header.trim()) || /[a-z](?:ID|Id)$/.test(header.trim());

/** `Blk ID` and `Tray #` name a record. */
export const isOfNames = (header: string): boolean =>
  isOfIds(header) || /\b(?:no|nr|number)\.?$|#$/i.test(header.trim());

/** `ORD_NO` numbers the orders; it is no product. */
export const isOfOrders = (header: string): boolean =>
  /^(?:ord|orders?|invoice|inv|po|so|doc|ticket)[\s_.]*(?:no|nr|num|number|id|#)?\.?$/i.test(header.trim());
