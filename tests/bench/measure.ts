/** Two ways of doing a job, timed in turn in one run: their ratio means something on any machine. */
export interface Measurement {
  readonly what: string;
  readonly against: string;
  readonly milliseconds: number;
  readonly baseMilliseconds: number;
  readonly ratio: number;
  /** The ratio promised, where one is. */
  readonly atMost?: number;
}

export const median = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1]!;

function timed(job: () => unknown): number {
  const start = performance.now();
  job();
  return performance.now() - start;
}

/** Medians of `runs` runs each, in turn, after a third as many that do not count. */
export function compare(
  what: string,
  subject: () => unknown,
  against: string,
  base: () => unknown,
  atMost?: number,
  runs = 30,
): Measurement {
  const times: number[] = [];
  const baseTimes: number[] = [];
  for (let run = -Math.ceil(runs / 3); run < runs; run++) {
    const [time, baseTime] = [timed(subject), timed(base)];
    if (run < 0) continue;
    times.push(time);
    baseTimes.push(baseTime);
  }
  return measured(what, median(times), against, median(baseTimes), atMost);
}

/** The same for jobs that finish later. */
export async function compareLater(
  what: string,
  subject: () => Promise<unknown>,
  against: string,
  base: () => Promise<unknown>,
  runs = 5,
): Promise<Measurement> {
  const later = async (job: () => Promise<unknown>): Promise<number> => {
    const start = performance.now();
    await job();
    return performance.now() - start;
  };
  const [times, baseTimes]: [number[], number[]] = [[], []];
  for (let run = -1; run < runs; run++) {
    const [time, baseTime] = [await later(subject), await later(base)];
    if (run < 0) continue;
    times.push(time);
    baseTimes.push(baseTime);
  }
  return measured(what, median(times), against, median(baseTimes));
}

export function measured(
  what: string,
  milliseconds: number,
  against: string,
  baseMilliseconds: number,
  atMost?: number,
): Measurement {
  const ratio = milliseconds / baseMilliseconds;
  return {
    what,
    against,
    milliseconds,
    baseMilliseconds,
    ratio,
    ...(atMost === undefined ? {} : { atMost }),
  };
}

/** A seeded stream of numbers from 0 to 1 (mulberry32), so that every run sees the same data. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
