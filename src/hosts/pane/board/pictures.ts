import { node, toElement, type PageNode } from '../node';

// A drawn board as a file or on paper: always black on white, whatever the page looks like.

/** What makes a drawing look as it does without the page's styles, and what a drawing has where nothing is said. */
const LOOKS = [
  ['fill', 'rgb(0, 0, 0)'],
  ['fill-opacity', '1'],
  ['stroke', 'none'],
  ['stroke-width', '1px'],
  ['stroke-dasharray', 'none'],
  ['stroke-linecap', 'butt'],
  ['paint-order', 'normal'],
] as const;
const LOOKS_OF_WORDS = [
  ['font-size', ''],
  ['font-weight', '400'],
  ['text-anchor', 'start'],
] as const;

/** The drawing as text that needs no style sheet. */
export function standAlone(drawing: PageNode): string {
  const host = toElement(node('div', { class: 'pinset board paper unseen' }, drawing));
  document.body.append(host);
  try {
    const svg = host.querySelector('svg')!;
    svg.setAttribute('font-family', getComputedStyle(svg).fontFamily);
    for (const element of svg.querySelectorAll<SVGElement>('rect, path, text')) {
      const computed = getComputedStyle(element);
      const looks = element.tagName === 'text' ? [...LOOKS, ...LOOKS_OF_WORDS] : LOOKS;
      for (const [look, usual] of looks) {
        const value = computed.getPropertyValue(look);
        if (value !== usual && !element.getAttribute(look)?.startsWith('url('))
          element.setAttribute(look, value);
      }
    }
    for (const element of [svg, ...svg.querySelectorAll('[class]')]) element.removeAttribute('class');
    return new XMLSerializer().serializeToString(svg);
  } finally {
    host.remove();
  }
}

/** Dots to a point of the drawing, and the most that a picture has: browsers refuse larger ones. */
const FINE = 2;
const MOST_DOTS = 16_000;

/** The drawing as a PNG. @throws Error in words */
export async function asPng(svg: string, width: number, height: number): Promise<Blob> {
  const image = new Image();
  await new Promise((resolve, reject) => {
    image.onload = resolve;
    image.onerror = () =>
      reject(new Error('this browser could not draw the picture: take the drawing (SVG)'));
    image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  });
  const times = Math.min(FINE, MOST_DOTS / width, MOST_DOTS / height);
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [Math.floor(width * times), Math.floor(height * times)];
  canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) =>
    canvas.toBlob(
      (blob) =>
        blob ? resolve(blob) : reject(new Error('the picture is too large: take the drawing (SVG)')),
      'image/png',
    ),
  );
}

/** Hands a file to the person. */
export function handOver(name: string, content: Blob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

/** Prints drawings, each on a page of its own, and nothing else of the page. */
export function printPages(drawings: readonly PageNode[]): void {
  const pages = toElement(
    node(
      'div',
      { class: 'pinset board paper board-print' },
      drawings.map((drawing) => node('div', { class: 'sheet-of-paper' }, drawing)),
    ),
  );
  const root = document.documentElement;
  document.body.append(pages);
  root.classList.add('prints-board');
  const end = (): void => {
    pages.remove();
    root.classList.remove('prints-board');
  };
  addEventListener('afterprint', end, { once: true });
  window.print();
}
