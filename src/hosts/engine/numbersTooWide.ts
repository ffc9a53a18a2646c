import { stores, type CellPosition, type Getters } from '@odoo/o-spreadsheet';

// A number or a day that does not fit its column is shown as `####`: half of it could be read as another.

interface Box {
  readonly width: number;
  content?: { textLines: string[]; width: number; textWidth: number; readonly align: string };
  clipRect?: object;
  isOverflow?: boolean;
}

interface Renderer {
  readonly getters: Getters;
  createZoneBox: (
    this: Renderer,
    viewports: object,
    sheetId: string,
    zone: { left: number; top: number },
    viewport: object,
  ) => Box;
}

/** Pixels that the grid keeps free at each side of a cell. */
const MARGIN = 4;
const SIGN = '#';

/** What stands for a number that is wider than its cell; undefined where it fits. */
function insteadOf(getters: Getters, position: CellPosition, width: number): string | undefined {
  const { value, formattedValue } = getters.getEvaluatedCell(position);
  if (typeof value !== 'number' || getters.shouldShowFormulas()) return undefined;
  const style = getters.getCellComputedStyle(position);
  const room = width - 2 * MARGIN;
  const fits = (text: string): boolean => getters.getTextWidth(text, style) <= width - MARGIN;
  if (fits(formattedValue)) return undefined;
  // With fewer decimals, where no format says how many.
  const shorter = getters.getCellText(position, { availableWidth: room, showFormula: false });
  if (fits(shorter)) return shorter;
  return SIGN.repeat(Math.max(1, Math.floor(room / getters.getTextWidth(SIGN, style))));
}

const renderer = stores.GridRenderer.prototype as unknown as Renderer;
const { createZoneBox } = renderer;

renderer.createZoneBox = function (viewports, sheetId, zone, viewport) {
  const box = createZoneBox.call(this, viewports, sheetId, zone, viewport);
  if (!box.content) return box;
  const text = insteadOf(this.getters, { sheetId, col: zone.left, row: zone.top }, box.width);
  if (text === undefined) return box;
  const { clipRect: _, isOverflow: __, ...rest } = box;
  return { ...rest, content: { ...box.content, textLines: [text], width: box.width } };
};

/** What a cell would say if its column were wider; undefined where it says so. */
export function tooWideAt(getters: Getters, position: CellPosition): string | undefined {
  const { sheetId, col } = position;
  if (getters.isInMerge(position)) return undefined;
  const text = insteadOf(getters, position, getters.getColSize(sheetId, col));
  return text?.startsWith(SIGN) ? getters.getEvaluatedCell(position).formattedValue : undefined;
}
