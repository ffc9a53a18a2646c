import { NotLoaded } from '../../../worksheet/tools';
import { node, type PageNode } from '../node';
import type { BoardView, Setting } from './boardView';

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

/** The board, which is loaded once somebody asks for it. */
export function boardOf(setting: Setting): () => Promise<BoardView> {
  let loading: Promise<BoardView> | undefined;
  return () => {
    loading ??= import('./boardView').then(
      ({ BoardView: View }) => new View(setting),
      (fault: unknown) => {
        loading = undefined;
        throw new NotLoaded(fault);
      },
    );
    return loading;
  };
}
