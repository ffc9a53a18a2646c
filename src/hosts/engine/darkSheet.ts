import { stores } from '@odoo/o-spreadsheet';
import { DARK_INK, DARK_SHEET, darkened, darkLine } from './darkLooks';

// The engine draws its cells on a white sheet. On a dark one each cell gets the colours of its own that can be read
// there, and what the engine draws around them gets those of the page.

interface Box {
  readonly style: { readonly fillColor?: string; readonly textColor?: string };
}
interface Renderer {
  createZoneBox: (this: Renderer, ...of: unknown[]) => Box;
}

let isDark = false;

export function dyeSheets(dark: boolean): void {
  isDark = dark;
}

export const isDarkSheet = (): boolean => isDark;

const renderer = stores.GridRenderer.prototype as unknown as Renderer;
const { createZoneBox } = renderer;

renderer.createZoneBox = function (...of) {
  const box = createZoneBox.apply(this, of);
  if (!isDark) return box;
  const { fill, text } = darkened(box.style.fillColor, box.style.textColor);
  return { ...box, style: { ...box.style, fillColor: fill, textColor: text } } as Box;
};

/** What the engine draws around cells, and what takes its place. */
const AROUND: Readonly<Record<string, string>> = {
  '#ffffff': DARK_SHEET,
  '#fff': '#ffffff',
  '#000': DARK_INK,
  black: DARK_INK,
  // Headers, those of the selection, and those of whole rows and columns.
  '#f8f9fa': '#2a2622',
  '#e8eaed': '#4a4239',
  '#595959': '#8a5a3c',
  '#666666': '#c4b9a9',
  // Lines: of headers, of cells, of what stays in view.
  '#c0c0c0': '#4d463d',
  '#e2e3e3': '#37322c',
  '#bcbcbc': '#6b6256',
  '#dadfe8': '#575046',
  // The selection, which brightens here.
  '#3266ca': '#8cb8ff',
  '#f3f7fe': '#0b1220',
  '#e9f0ff': '#16233c',
  red: '#ff8f80',
};

/** Lets a canvas of cells be drawn dark while sheets are. */
export function drawDark(canvas: HTMLCanvasElement): void {
  const context = canvas.getContext('2d');
  if (!context) return;
  const own = (
    name: 'fillStyle' | 'strokeStyle' | 'globalCompositeOperation',
    dark: (value: string) => string,
  ) => {
    const usual = Object.getOwnPropertyDescriptor(CanvasRenderingContext2D.prototype, name)!;
    Object.defineProperty(context, name, {
      get: () => usual.get!.call(context) as unknown,
      set: (value: unknown) =>
        usual.set!.call(context, isDark && typeof value === 'string' ? dark(value) : value),
    });
  };
  const colour = (value: string): string => {
    const around = AROUND[value.toLowerCase()];
    return around ?? (/^#[\da-f]{6}$/i.test(value) ? darkLine(value) : value);
  };
  own('fillStyle', colour);
  own('strokeStyle', colour);
  own('globalCompositeOperation', (value) => (value === 'multiply' ? 'screen' : value));
}
