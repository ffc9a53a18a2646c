import type { Work, Works } from '../worker/works';

/** Shorter work shows nothing: a strip that only flickers tells nobody anything. */
const SHOWN_AFTER = 1000;

/**
 * What is being worked out, how far it has come, and a button that stops it. What was stopped can be asked for again
 * where the page knows how.
 */
export function workShown(works: Works, again?: () => void): HTMLElement {
  const strip = document.createElement('div');
  strip.className = 'work';
  strip.hidden = true;
  const words = document.createElement('span');
  const bar = document.createElement('progress');
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = 'Stop';
  strip.append(words, bar, button);
  let now: Work | undefined;
  let stopped: string | undefined;
  const show = (): void => {
    const isLate = now !== undefined && Date.now() - now.since >= SHOWN_AFTER;
    strip.hidden = !isLate && stopped === undefined;
    bar.hidden = !isLate;
    if (isLate) {
      words.textContent = workWords(now!, Date.now());
      bar.ariaLabel = `${now!.name} is being worked out`;
      const { done = 0, of } = now!.progress ?? {};
      if (of === undefined) bar.removeAttribute('value');
      else [bar.max, bar.value] = [of, done];
      button.textContent = 'Stop';
    } else if (stopped !== undefined) {
      words.textContent = `${stopped} was stopped; its cells show #N/A.`;
      button.textContent = 'Work it out';
    }
    button.hidden = !isLate && again === undefined;
  };
  button.addEventListener('click', () => {
    if (now) {
      stopped = now.name;
      works.stop();
    } else {
      stopped = undefined;
      again?.();
    }
    show();
  });
  let ticking: ReturnType<typeof setInterval> | undefined;
  works.watch((work) => {
    now = work;
    if (work) stopped = undefined;
    if (work) ticking ??= setInterval(show, 500);
    else {
      clearInterval(ticking);
      ticking = undefined;
    }
    show();
  });
  return strip;
}

/** How far a call has come: a share where it is known, else the programmes solved so far. */
export function workWords({ name, since, progress, waiting }: Work, now: number): string {
  const { done = 0, of } = progress ?? {};
  const far =
    of !== undefined
      ? `${Math.floor((100 * done) / of)}%, `
      : done > 0
        ? `${done} ${steps(done)} solved, `
        : '';
  const others = waiting > 0 ? `; ${waiting} more to come` : '';
  return `${name}: ${far}${Math.round((now - since) / 1000)} s${others}`;
}

const steps = (count: number): string => (count === 1 ? 'programme' : 'programmes');
