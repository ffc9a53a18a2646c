import { blocksOn, FEWEST, knownColumn, type Block } from './block';
import type { Told } from './blockParts';
import type { BookSheet } from './book';
import { weekdaysIn } from './standing';
import type { Look } from './values';
import { weekdayAt, weekOver } from './weekOf';

// Blocks with days of the week across, under the week that is said.

interface BlockOfWeek {
  readonly block: Block;
  readonly week: NonNullable<ReturnType<typeof weekOver>>;
}

/** Blocks with days of the week across and labels down whose week is said; none where that of one is not. */
export function byWeek(
  sheet: BookSheet,
  isKnown: (label: string) => boolean,
  labels: (block: Block) => number | undefined,
): BlockOfWeek[] {
  const isWeekday = (look: Look, text: string): boolean => look === 'text' && weekdaysIn(text).length === 1;
  const blocks = blocksOn(sheet, FEWEST.days, isKnown, isWeekday).flatMap((block) => {
    const down = labels(block) ?? knownColumn(block, isKnown);
    return down === undefined ? [] : [{ ...block, down }];
  });
  const found = blocks.flatMap((block) => {
    const week = weekOver(block);
    return week === undefined ? [] : [{ block, week }];
  });
  return found.length === blocks.length ? found : [];
}

/** The day of each figure in blocks of weeks. */
export function weekTold(wanted: string, blocks: readonly BlockOfWeek[]): Told {
  const weekIn = new Map(blocks.map(({ block, week }) => [block, week]));
  return {
    wanted,
    header: 'the week and the days across',
    lies: (block) => weekIn.get(block)!,
    weekday: weekdayAt,
  };
}
