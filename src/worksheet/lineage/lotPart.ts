import { lotParts } from '../../maths/lineage/lotParts';
import { keyColumn, setting } from '../cells/arguments';
import { formatted } from '../cells/cell';
import { choice, text } from '../cells/kinds';
import { mixed, value } from '../cells/results';
import { defineFunction } from '../define';

export const LOTPART = defineFunction({
  name: 'LOTPART',
  family: 'lineage',
  needsDateSystem: true,
  arguments: [
    keyColumn('code', text(), 'label as LOTCODE makes it'),
    setting(
      'part',
      choice({
        species: 'the first letters of the species',
        strain: 'the strain in capitals',
        generation: 'the generation from the mother culture',
        made: 'the day the lot was made',
        serial: 'which of the day’s lots',
        label: 'the whole label as it should be written',
      }),
      'species, strain, generation, made, serial or label',
    ),
  ],
  result: value('part of the label', mixed()),
  eachRow: (code, part, { dateSystem }) => {
    const parts = lotParts(code, dateSystem);
    return part === 'made' ? formatted(parts.madeSerial, 'date') : parts[part];
  },
});
