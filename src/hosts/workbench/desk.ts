import type { Grid } from '../engine/grid';
import type { WorkbookContent } from '../engine/workbook';
import type { Pane } from '../pane/pane';
import { findingsIn } from './findings';

export interface OpenFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly content: WorkbookContent;
  readonly grid: Grid;
  /** Sheets that the file as it was opened does not have. */
  readonly added: readonly string[];
}

interface Desk {
  /** The workbook that is open in the page. */
  current: OpenFile | undefined;
  /** What it was before sheets were added to it or taken away, the last first to go back to, and what it was after. */
  readonly earlier: OpenFile[];
  readonly later: OpenFile[];
  /** Whether anything differs from the file that was opened or saved last. */
  isChanged: boolean;
  pane: Pane | undefined;
  /** What waits until nothing is being typed into a cell. */
  waiting: (() => void) | undefined;
}

export const desk: Desk = {
  current: undefined,
  earlier: [],
  later: [],
  isChanged: false,
  pane: undefined,
  waiting: undefined,
};

/** The pane tells what there is to look at in the cells. */
export function showFindings(): void {
  if (desk.current) desk.pane?.found(findingsIn(desk.current.grid.workbook));
}
