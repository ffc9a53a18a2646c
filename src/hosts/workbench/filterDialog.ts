import type { EngineWorkbook } from '../engine/engineWorkbook';
import type { FilteredCell } from '../engine/filters';
import { readTyped } from '../engine/typing/typedValue';
import { serialOf, writtenDate } from '../../worksheet/calendar';
import type { Comparison, Criterion } from '../xlsx/filters';
import { byId } from './element';
import { cellsOf, type Filterable } from './filtering';

/** A longer list nobody ticks. */
const MOST_CHOICES = 300;

/** One thing that cells of a column hold. */
interface Choice {
  readonly says: string;
  readonly day: string | undefined;
  count: number;
}

interface Chosen {
  /** Undefined shows all rows again. */
  readonly criterion: Criterion | undefined;
}

/** Asks which rows of a column are shown; undefined where all stays as it is. */
export function askForFilter(workbook: EngineWorkbook, filterable: Filterable): Promise<Chosen | undefined> {
  const dialog = byId<HTMLDialogElement>('filter');
  const cells = cellsOf(workbook, filterable).map(({ cell }) => cell);
  const now = filterable.filter.columns.find(({ column }) => column === filterable.column)?.criterion;
  const choices = choicesIn(cells);
  const holdsDays = cells.some(({ day }) => day !== undefined);
  const holdsNumbers = cells.some(({ value }) => typeof value === 'number');
  const field = (name: string): HTMLInputElement => dialog.querySelector(`[name="filter-${name}"]`)!;

  byId('filter-title').textContent = `Show rows by ${filterable.header || 'this column'}`;
  byId('filter-range').hidden = !holdsNumbers;
  for (const name of ['from', 'to']) {
    const input = field(name);
    input.type = holdsDays ? 'date' : 'text';
    input.inputMode = holdsDays ? 'none' : 'decimal';
  }
  const was = fieldsOf(now, workbook, holdsDays);
  for (const name of ['contains', 'from', 'to'] as const) field(name).value = was[name];
  const list = byId('filter-values');
  list.replaceChildren(
    ...choices.slice(0, MOST_CHOICES).map((choice) => tick(choice, isTicked(now, choice))),
  );
  byId('filter-more').textContent =
    choices.length > MOST_CHOICES ? `and ${choices.length - MOST_CHOICES} more: use the fields above` : '';
  const ticks = [...list.querySelectorAll('input')];
  const all = field('all');
  const showAll = (): void => {
    const count = ticks.filter(({ checked }) => checked).length;
    all.checked = count === ticks.length;
    all.indeterminate = count > 0 && count < ticks.length;
  };
  showAll();
  all.onchange = () => {
    for (const one of ticks) one.checked = all.checked;
  };
  list.onchange = showAll;

  const chosen = (): Criterion | undefined => {
    const contains = field('contains').value.trim();
    const limits = limitsOf([field('from').value, field('to').value], workbook, holdsDays);
    if (contains !== '' && limits.length > 0) {
      throw new Error('a text and limits cannot be asked for at once: clear one of them');
    }
    if (contains !== '') {
      const than = `*${contains.replace(/[*?~]/g, '~$&')}*`;
      return { kind: 'compared', both: false, with: [{ is: 'equal', than }] };
    }
    if (limits.length > 0) return { kind: 'compared', both: limits.length > 1, with: limits };
    const ticked = choices.filter((_, at) => at >= MOST_CHOICES || ticks[at]!.checked);
    if (ticked.length === choices.length) return undefined;
    return {
      kind: 'values',
      texts: ticked.flatMap(({ says, day }) => (says === '' || day !== undefined ? [] : [says])),
      days: ticked.flatMap(({ day }) => day ?? []),
      blanks: ticked.some(({ says }) => says === ''),
    };
  };
  const fault = byId('filter-fault');
  fault.textContent = '';
  return new Promise((resolve) => {
    let given: Chosen | undefined;
    dialog.querySelector('form')!.onsubmit = (event) => {
      const { value } = event.submitter as HTMLButtonElement;
      if (value === 'all') given = { criterion: undefined };
      if (value !== 'use') return;
      try {
        given = { criterion: chosen() };
      } catch (wrong) {
        event.preventDefault();
        fault.textContent = `${(wrong as Error).message}.`;
      }
    };
    dialog.addEventListener('close', () => resolve(given), { once: true });
    dialog.showModal();
  });
}

function choicesIn(cells: readonly FilteredCell[]): Choice[] {
  const byText = new Map<string, Choice & { readonly value: FilteredCell['value'] }>();
  for (const { text, day, value } of cells) {
    const key = day ?? text.toLowerCase();
    const known = byText.get(key);
    if (known) known.count++;
    else byText.set(key, { says: text, day, count: 1, value });
  }
  return [...byText.values()].sort((a, b) => {
    if (a.says === '' || b.says === '') return a.says === '' ? 1 : -1;
    if (typeof a.value === 'number' && typeof b.value === 'number') return a.value - b.value;
    return a.says.localeCompare(b.says, undefined, { numeric: true });
  });
}

function tick({ says, count }: Choice, isChecked: boolean): HTMLElement {
  const label = document.createElement('label');
  const box = document.createElement('input');
  box.type = 'checkbox';
  box.checked = isChecked;
  const rows = document.createElement('small');
  rows.textContent = count === 1 ? '1 row' : `${count} rows`;
  label.append(box, ` ${says === '' ? '(blank)' : says} `, rows);
  return label;
}

function isTicked(now: Criterion | undefined, { says, day }: Choice): boolean {
  if (now?.kind !== 'values') return true;
  if (says === '') return now.blanks;
  if (day !== undefined) return now.days.includes(day);
  return now.texts.some((text) => text.toLowerCase() === says.toLowerCase());
}

/** What the fields say for a criterion that was made of them. */
function fieldsOf(now: Criterion | undefined, workbook: EngineWorkbook, asDays: boolean) {
  const fields = { contains: '', from: '', to: '' };
  if (now?.kind !== 'compared') return fields;
  const shown = (limit: string, more = 0): string =>
    asDays
      ? writtenDate(Number(limit) + more, workbook.dateSystem)
      : limit.replace('.', workbook.habits.decimal);
  for (const { is, than } of now.with) {
    const text = /^\*(.*)\*$/s.exec(than);
    if (is === 'equal' && text) fields.contains = text[1]!.replace(/~([*?~])/g, '$1');
    if (is === 'greaterThanOrEqual') fields.from = shown(than);
    if (is === 'lessThanOrEqual') fields.to = shown(than);
    // The last day has a time too.
    if (is === 'lessThan' && asDays) fields.to = shown(than, -1);
  }
  return fields;
}

function limitsOf(
  [from, to]: readonly [string, string],
  workbook: EngineWorkbook,
  asDays: boolean,
): { is: Comparison; than: string }[] {
  const numberIn = (text: string): number => {
    const [year, month, day] = text.split('-').map(Number);
    if (asDays) return serialOf(year!, month!, day!, workbook.dateSystem);
    const typed = readTyped(text, workbook.habits, { dateSystem: workbook.dateSystem, thisYear: 2000 });
    if (typed.kind !== 'number') throw new Error(`${text} is no number: write one such as 12 or 70%`);
    return typed.value;
  };
  const limits: { is: Comparison; than: string }[] = [];
  if (from !== '') limits.push({ is: 'greaterThanOrEqual', than: String(numberIn(from)) });
  if (to !== '') {
    limits.push(
      asDays
        ? { is: 'lessThan', than: String(numberIn(to) + 1) }
        : { is: 'lessThanOrEqual', than: String(numberIn(to)) },
    );
  }
  return limits;
}
