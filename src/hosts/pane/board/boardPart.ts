import { loadTools } from '../../../worksheet/tools';
import type { BookContents } from '../book';
import { node, type PageNode } from '../node';
import { onDemand } from '../onDemand';
import type { BoardView, Setting } from './boardView';
import { plansIn } from './plans';

/** The part of the pane before anything is drawn. */
export const boardPart = (): PageNode[] => [
  node(
    'p',
    {},
    'Draws a plan of this workbook: rooms and days, each load from opening to its last pick. Move a load to see which rules it would break. Nothing in the workbook changes before you click.',
  ),
  node(
    'p',
    { class: 'actions' },
    node('fluent-button', { appearance: 'primary', 'data-act': 'board-draw' }, 'Draw the plan'),
  ),
  node('div', { id: 'board' }),
];

/**
 * The board, which is loaded once somebody asks for it. It is handed what the pane has too, and imports none of it: what
 * two scripts share cannot be joined with the rest of the first.
 */
export function boardOf(setting: Omit<Setting, 'planning' | 'plansIn'>): () => Promise<BoardView> {
  const { caller, solve } = setting;
  return onDemand(
    () => Promise.all([loadTools(['planning']), import('./boardView')]),
    ([{ planning }, { BoardView: View }]) => {
      const plans = (contents: BookContents) => plansIn(contents, caller, solve);
      return new View({ ...setting, planning: planning!, plansIn: plans });
    },
  );
}
