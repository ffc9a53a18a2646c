import type { Words } from '../words';
import { examplePlan, unknownStrain } from './examples';

const { lots, strains, rooms, orders } = examplePlan;
const HEADER = ['what', 'mean', 'lowest', 'highest', 'note'];

export const words: Words = {
  summary:
    'Plays the coming season several times: orders filled, surplus, days over the limit, blocks over age.',
  notes: [
    'In each season every lot and load fares differently, as drawn from the yield spread, pick spread and ready spread of its strain. ' +
      'Each week the farm plans with what it knows by then, and does that week’s loads.',
    'To ask what a fourth room, one lot more a week or a Sunday crew would do, call it again with a table that has them. ' +
      'The other lots do the same in both calls, so the difference is due to the change.',
    'The rule plan, the default, is LOADPLAN again each week; certain is the same without spreads; thumb does whatever is worth most on the day. ' +
      'A number means that many blocks a week, oldest ripe lots first.',
    'A season of 12 weeks with three lots a week takes about 8 seconds with the rule plan, aside from the page, which shows how far it has come and can stop it. ' +
      'The other rules take far less.',
    'The lots are all that the season holds, those still to be inoculated included. Orders due in its weeks count; the dearest are filled first.',
    'A lot that is not ripe when it is to be opened stays shut until the next plan. What is over a picking limit is picked all the same, and counted.',
    'The same cells and seed give the same seasons. Lowest and highest are those of the seasons played, not bounds.',
  ],
  sources: [
    'Metropolis, N. & Ulam, S. (1949) J. American Statistical Association 44:335–341: chance played out',
    'McKay, M. D., Beckman, R. J. & Conover, W. J. (1979) Technometrics 21:239–245: draws spread evenly',
  ],
  questions: [
    'what would another room do',
    'how will the season go',
    'what if we worked on Sundays',
    'is one more lot a week worth it',
    'how sure are my orders over the season',
  ],
  examples: [
    {
      title: 'Ten blocks a week, a few each day: 1.35 of 9 kg comes on the two days that are wanted',
      arguments: [lots, strains, rooms, orders(9), 46146, 2, null, null, null, 10, 1],
      gives: [
        HEADER,
        ['orders filled', 0.15, 0.15, 0.15, 'share of their value'],
        [
          'picked that no order takes',
          3.375 / 4.725,
          3.375 / 4.725,
          3.375 / 4.725,
          'share of all that is picked',
        ],
        ['days over by a tenth', 0, 0, 0, 'more than a tenth over the limit must be picked'],
        ['worst day over', 0, 0, 0, 'as a share of its limit'],
        ['blocks loaded', 19, 19, 19, 'of 20 in lots'],
        ['blocks over age', 1, 1, 1, 'never opened'],
        [
          'seasons played',
          1,
          '',
          '',
          'no strain has a spread, so all seasons are the same: fill in yield spread, pick spread or ready spread',
        ],
      ],
    },
    {
      title: 'Nothing is said of spreads: the plan opens all 20 blocks in time for both seasons',
      arguments: [lots, strains, rooms, orders(9), 46146, 2, null, null, null, 'plan', 2],
      gives: [
        HEADER,
        ['orders filled', 1, 1, 1, 'share of their value; the mean may be 0% off by chance'],
        ['picked that no order takes', 0, 0, 0, 'share of all that is picked'],
        ['days over by a tenth', 0, 0, 0, 'more than a tenth over the limit must be picked'],
        ['worst day over', 0, 0, 0, 'as a share of its limit'],
        ['blocks loaded', 20, 20, 20, 'of 20 in lots'],
        ['blocks over age', 0, 0, 0, 'never opened'],
        [
          'seasons played',
          2,
          '',
          '',
          'no strain has a spread, so all seasons are the same: fill in yield spread, pick spread or ready spread',
        ],
      ],
    },
  ],
  faults: [
    unknownStrain('strain in lots', [
      [lots[0]!, ['B-12', 'Hazel-9', 20, 2.5, 0.6, 46078]],
      strains,
      rooms,
      orders(9),
      46146,
      2,
    ]),
    {
      arguments: [lots, strains, rooms, orders(9), 46146, 2, null, null, null, 'oldest'],
      code: '#VALUE!',
      says: 'rule must be plan, certain, thumb, or a number of blocks a week; it is "oldest"',
      remedy: 'Use one of the three words, or a number of blocks a week for oldest ripe lots first.',
    },
  ],
};
