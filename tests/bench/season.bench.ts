import { playSeason, type Policy, type Season } from '../../src/maths/loading/playSeason';
import { loadHighs } from '../../src/maths/shared/highs';
import { DRIFTING, foresight, HORIZON, policies, ROUGH, SMOOTH } from '../maths/loading/seasons';

// Seasons played many times with each way of planning: what a plan is worth on a farm that does not keep to plan. The
// number of seasons is `SEASONS` in the environment, 24 if left out; `npm run bench -- season`. A kind is told once it is
// played: all of them take long.

const WEEKS = 12;

export async function figures(): Promise<string[]> {
  const highs = await loadHighs();
  const count = Number(process.env['SEASONS'] ?? 24);
  console.log(
    'world  | policy              | fill   | over margin 10% | no order takes | days over by a tenth | worst day | over age | s a season',
  );
  for (const kind of [SMOOTH, ROUGH, DRIFTING]) {
    const played = new Map<string, { seasons: Season[]; seconds: number }>();
    for (let seed = 1; seed <= count; seed++) {
      const farm = kind.farm(seed, WEEKS, kind.spread);
      const world = kind.world(farm, seed);
      const all: [string, () => Policy][] = [
        ...Object.entries(policies(highs)).map(([name, policy]): [string, () => Policy] => [
          name,
          () => policy,
        ]),
        ['perfect foresight', () => foresight(farm, world, WEEKS, highs)],
      ];
      for (const [name, policy] of all) {
        const start = process.cpuUsage().user;
        const season = playSeason(farm, world, policy(), WEEKS, HORIZON);
        const one = played.get(name) ?? { seasons: [], seconds: 0 };
        one.seasons.push(season);
        one.seconds += (process.cpuUsage().user - start) / 1e6;
        played.set(name, one);
      }
    }
    for (const [name, { seasons, seconds }] of played) {
      const mean = (of: (season: Season) => number): number =>
        seasons.reduce((sum, season) => sum + of(season), 0) / seasons.length;
      const percent = (share: number): string => `${(100 * share).toFixed(1)}%`;
      const gains = seasons.map(({ fill }, n) => 100 * (fill - played.get('margin 10%')!.seasons[n]!.fill));
      console.log(
        [
          kind.name.padEnd(6),
          name.padEnd(19),
          percent(mean(({ fill }) => fill)).padEnd(6),
          pointsOf(gains).padEnd(15),
          percent(mean(({ surplus }) => surplus)).padEnd(14),
          mean(({ daysOver }) => daysOver)
            .toFixed(1)
            .padEnd(20),
          percent(mean(({ worstOver }) => worstOver)).padEnd(9),
          percent(mean(({ overAge }) => overAge)).padEnd(8),
          (seconds / seasons.length).toFixed(2),
        ].join(' | '),
      );
    }
  }
  return [];
}

/** The mean of paired differences, with its standard error. */
function pointsOf(gains: readonly number[]): string {
  const mean = gains.reduce((sum, gain) => sum + gain, 0) / gains.length;
  const squares = gains.reduce((sum, gain) => sum + (gain - mean) ** 2, 0);
  const error = Math.sqrt(squares / Math.max(1, gains.length - 1) / gains.length);
  return `${mean < 0 ? '−' : '+'}${Math.abs(mean).toFixed(2)} ± ${error.toFixed(2)}`;
}
