import type { DateOrder, Habits } from '../engine/typing/habits';
import type { Question } from '../engine/typing/typing';
import { byId } from './element';

let asking: Promise<unknown> = Promise.resolve();

/** Asks with a button for each answer, one question after another; undefined where the person does not answer. */
export function askWith<A>(
  words: string,
  answers: readonly { readonly says: string; readonly answer: A }[],
): Promise<A | undefined> {
  const asked = asking.then(() => answered(words, answers));
  asking = asked;
  return asked;
}

function answered<A>(
  words: string,
  answers: readonly { readonly says: string; readonly answer: A }[],
): Promise<A | undefined> {
  const dialog = byId<HTMLDialogElement>('asking');
  byId('asking-words').textContent = words;
  return new Promise((resolve) => {
    let given: A | undefined;
    byId('asking-answers').replaceChildren(
      ...answers.map(({ says, answer }) => {
        const button = document.createElement('button');
        button.type = 'button';
        button.textContent = says;
        button.addEventListener('click', () => {
          given = answer;
          dialog.close();
        });
        return button;
      }),
    );
    dialog.addEventListener('close', () => resolve(given), { once: true });
    dialog.showModal();
  });
}

/** Which of two days a text means that was typed. */
export function askWhichDay({ text, address, more, days }: Question): Promise<DateOrder | undefined> {
  const others = more === 0 ? '' : `, and with it ${more} more ${more === 1 ? 'day' : 'days'}`;
  return askWith(`Which day is ${text} in ${address}${others}? Its column may be read either way.`, [
    ...days.map(({ order, says }) => ({ says, answer: order })),
    { says: 'Leave it as it was', answer: undefined },
  ]);
}

const SOURCES = { book: 'as in this workbook', browser: 'as your browser', person: 'as you chose' } as const;

/** What the status line says of how typed days and numbers are read. */
export function habitsInWords({ order, decimal, orderFrom, decimalFrom }: Habits): string {
  const day = { mdy: 'month/day/year', dmy: 'day/month/year', ymd: 'year-month-day' }[order];
  const mark = decimal === ',' ? '12,5' : '12.5';
  return orderFrom === decimalFrom
    ? `Typed days are ${day}, decimals ${mark}: ${SOURCES[orderFrom]}`
    : `Typed days are ${day}, ${SOURCES[orderFrom]}; decimals ${mark}, ${SOURCES[decimalFrom]}`;
}

/** Asks how typed days and numbers are to be read; undefined where all stays as it is. */
export function askForHabits(now: Habits): Promise<Habits | undefined> {
  const dialog = byId<HTMLDialogElement>('habits-dialog');
  const form = dialog.querySelector('form')!;
  const choose = (name: string, value: string): void => {
    for (const choice of form.querySelectorAll<HTMLInputElement>(`[name="${name}"]`)) {
      choice.checked = choice.value === value;
    }
  };
  choose('order', now.order);
  choose('decimal', now.decimal);
  byId('habits-from').textContent =
    `${habitsInWords(now)}. A text such as 2026-04-03 or 3 Apr 2026 is always that day.`;
  return new Promise((resolve) => {
    dialog.returnValue = '';
    dialog.addEventListener(
      'close',
      () => {
        const chosen = new FormData(form);
        const order = (chosen.get('order') as DateOrder | null) ?? now.order;
        const decimal = (chosen.get('decimal') as Habits['decimal'] | null) ?? now.decimal;
        resolve(
          dialog.returnValue === 'use'
            ? { order, decimal, orderFrom: 'person', decimalFrom: 'person' }
            : undefined,
        );
      },
      { once: true },
    );
    dialog.showModal();
  });
}
