import { alikeLots, lotCode } from '../../maths/lineage/lotCode';
import { column, keyColumn, optionalColumn } from '../cells/arguments';
import { number, orNone, serial, text } from '../cells/kinds';
import { label, value } from '../cells/results';
import { defineFunction } from '../define';

export const LOTCODE = defineFunction({
  name: 'LOTCODE',
  family: 'lineage',
  needsDateSystem: true,
  arguments: [
    column(
      'species',
      text(),
      'species in words, three letters A to Z or more; its first three are written, SHM for shimeji',
    ),
    column('strain', text(), 'strain, 1 to 12 letters and digits; spaces and hyphens are left out'),
    column(
      'generation',
      orNone(number({ from: 1, to: 9, whole: true })),
      'generation from the mother culture, 1 to 9; none for the mother culture itself, which is G0',
    ),
    keyColumn('made', serial(), 'day the lot was made'),
    optionalColumn(
      'serial',
      number({ from: 1, to: 99, whole: true }),
      1,
      'which of the day’s lots of this kind, 1 to 99; 1 if left out',
    ),
    optionalColumn(
      'letters',
      text(),
      undefined,
      'three letters for the species, where two begin alike; from its name if left out',
    ),
  ],
  result: value('lot label', label()),
  eachRow: (species, strain, generation, madeSerial, ofTheDay, letters, { dateSystem }) =>
    lotCode({ species, letters, strain, generation, madeSerial, serial: ofTheDay }, dateSystem),
  atOdds: (species, strains, _generations, _made, _serials, letters) =>
    alikeLots(species.map((name, i) => ({ species: name, strain: strains[i], letters: letters[i] }))),
});
