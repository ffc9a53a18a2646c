import { figures, formula, heading, type Sheet } from '../../src/hosts/xlsx/describe';

export const ready: Sheet = {
  name: 'Ready',
  title: 'Ready within four weeks',
  notes: [
    'What can be opened until four weeks from today, what goes over age first at the top. From the lots of the sheet Lots.',
  ],
  things: [
    formula(
      'A4',
      '=PINSET.READYLOTS(Lots[#All], Strains[#All], Today, Today + 28)',
      ['text', 'text', 'count', 'date', 'date', 'date', 'date', 'count', 'text'],
      { headed: true, growth: 20 },
    ),
    heading('K4', 'Not loaded yet'),
    figures(
      'K5',
      { label: 'Lots', formula: '=COUNTIFS(Lots[Inoculated], "<>", Lots[Loaded], "")', reads: 'count' },
      {
        label: 'Ready by today',
        formula: '=COUNTIFS(Lots!B5#, "<="&Today, Lots[Loaded], "")',
        reads: 'count',
      },
      {
        label: 'Blocks in them',
        formula: '=SUMIFS(Lots[Blocks], Lots!B5#, "<="&Today, Lots[Loaded], "")',
        reads: 'count',
      },
      {
        label: 'Past their latest date',
        formula: '=COUNTIFS(INDEX(Lots!C5#, 0, 3), "<"&Today, Lots[Loaded], "")',
        reads: 'count',
      },
      {
        label: 'Blocks ready in four weeks',
        formula: '=SUMIFS(Lots[Blocks], Lots!B5#, ">"&Today, Lots!B5#, "<="&Today+28, Lots[Loaded], "")',
        reads: 'count',
      },
      { label: 'Rows to correct', formula: '=SUMPRODUCT(--ISERROR(Lots!B5#))', reads: 'count' },
    ),
  ],
  freeze: 'A5',
  prints: 'A:I',
};
