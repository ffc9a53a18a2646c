import { spawnChain } from '../../maths/lineage/spawnChain';
import { optionalSetting, setting, table } from '../cells/arguments';
import { key, optional, optionalOr, required } from '../cells/columns';
import { count, days, fraction, fractionBelowOne, mass, number, orNone, serial, text } from '../cells/kinds';
import { amount, date, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';

export const SPAWNCHAIN = defineFunction({
  name: 'SPAWNCHAIN',
  family: 'lineage',
  arguments: [
    setting('units', count(), 'good units wanted of the last step, such as blocks'),
    setting('needed', serial(), 'date they are needed'),
    table(
      'steps',
      {
        step: key(text(), 'name of the step, from mother culture to block', 'stage'),
        makes: optional(number({ above: 0 }), 'units of the next step that one unit makes', 'multiplies by'),
        days: required(
          orNone(days()),
          'days from the start of a unit until it can be used; none for 0',
          'run days',
        ),
        loss: optionalOr(
          orNone(fractionBelowOne()),
          0,
          'share of the units lost, none for 0; 0 if left out',
          'losses',
        ),
        mass: optional(mass(), 'mass of one unit', 'weight', 'unit weight'),
        batch: optionalOr(count(), 1, 'units that are started together; 1 if left out', 'batch size'),
        'max generation': optional(count(), 'highest generation the step should have'),
      },
      'table from mother culture to block: step, makes, days; optional loss, mass, batch, max generation',
    ),
    optionalSetting('allowance', fraction(), 0, 'share planned over, such as 5%, up to 100%; 0 if left out'),
  ],
  result: tableResult({
    step: label(),
    generation: amount('counted from the first row as 0'),
    start: amount('units to start'),
    good: amount('units left after the loss'),
    'start on': date(),
    'ready by': date(),
    mass: amount(),
    note: label(),
  }),
  whole: (units, neededSerial, stepsTable, allowance) => {
    const steps = stepsTable
      .onceEach('step')
      .map((row) => ({ ...row, maxGeneration: row['max generation'] }));
    return spawnChain(units, neededSerial, steps, allowance).map((one) => ({
      step: one.step,
      generation: one.generation,
      start: one.start,
      good: one.good,
      'start on': one.startSerial,
      'ready by': one.readySerial,
      mass: one.mass ?? ('' as const),
      note: one.isPastMaxGeneration ? `generation ${one.generation} is past max generation` : '',
    }));
  },
});
