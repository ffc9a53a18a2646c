/** A view of the book's plan: every sheet asks with the same cells, and so they share one solution. */
export const view = (name: string): string =>
  `=PINSET.LOADPLAN(Lots[#All], Strains[#All], Rooms[#All], Orders[#All], Today, PlanDays, Calendar[#All], Standing[#All], Settings[#All], , "${name}")`;
