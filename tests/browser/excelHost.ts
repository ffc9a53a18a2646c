import type { Page } from 'playwright-core';

/**
 * Excel's side of a custom function's call, as far as the vendor's runtime needs it: the runtime is the real one from
 * its npm package and talks to this through the bridge it offers to Excel on the desktop.
 */

/** Flags of a call: what functions.json allows of it. */
const CANCELABLE = 1;
const ERRORS_ALLOWED = 4;
const DATA_TYPES = 8;

/** What came back for a call: its value, or a fault as the runtime reports one that was thrown. */
export interface Reply {
  readonly ok: boolean;
  readonly value: unknown;
  readonly code?: number;
}

interface HostWindow {
  _richApiNativeBridge: {
    sendMessageToHost: (text: string) => void;
    onMessageFromHost: (text: string) => void;
  };
  replies: Record<number, Reply>;
  Excel: { run: (options: unknown, work: (context: unknown) => Promise<unknown>) => Promise<unknown> };
  Office: { context?: { requirements?: unknown } };
}

interface Query {
  readonly Name: string;
  readonly Id: number;
  readonly ArgumentInfo?: { readonly Arguments: readonly (readonly [number, boolean, unknown, number?][])[] };
}

/** 1 January 2000 in a workbook that counts from 1900, and in one that counts from 1904. */
export const DAY_IN_1900_SYSTEM = 36526;
export const DAY_IN_1904_SYSTEM = 35064;

/** Runs in the page before any of its scripts. */
function offerBridge(dayOf2000: number): void {
  const host = window as unknown as HostWindow;
  host.replies = {};
  const context = {
    workbook: { functions: { date: () => ({ load: () => {}, value: dayOf2000 }) } },
    sync: () => Promise.resolve(),
  };
  host.Excel = { run: (_options, work) => work(context) };
  host._richApiNativeBridge = {
    onMessageFromHost: () => {},
    sendMessageToHost: (text) => {
      const { id, type, message } = JSON.parse(text) as {
        id: number;
        type: number;
        message: { body: { Actions: Query[] } };
      };
      if (type !== 1) return;
      const actions = message.body.Actions;
      for (const { Name, ArgumentInfo } of actions) {
        if (Name !== 'SetInvocationArrayResults') continue;
        for (const [call, ok, value, code] of ArgumentInfo!.Arguments[0]!) {
          host.replies[call] = ok || code === undefined ? { ok, value } : { ok, value, code };
        }
      }
      const body = JSON.stringify({ Results: actions.map(({ Id }) => ({ ActionId: Id, Value: null })) });
      const answer = { id, type: 1, message: { statusCode: 200, headers: {}, body } };
      setTimeout(() => host._richApiNativeBridge.onMessageFromHost(JSON.stringify(answer)));
    },
  };
}

/** Opens the add-in's own page with the vendor's functions runtime in place of office.js, which needs a real Excel. */
export async function openAddIn(
  page: Page,
  url: string,
  { takesFormats = false, dayOf2000 = DAY_IN_1900_SYSTEM, edited = (html: string): string => html } = {},
): Promise<void> {
  await page.route('**/taskpane.html', async (route) => {
    const response = await route.fetch();
    const html = (await response.text()).replace('office/office.js', 'office/custom-functions-runtime.js');
    await route.fulfill({ response, body: edited(html) });
  });
  await page.addInitScript(offerBridge, dayOf2000);
  await page.goto(`${url}taskpane.html`);
  await page.waitForFunction(() => typeof (window as unknown as HostWindow).Office.context === 'object');
  await page.evaluate((formats) => {
    const { Office } = window as unknown as HostWindow;
    Object.defineProperty(Office.context, 'requirements', {
      value: { isSetSupported: (set: string) => set !== 'CustomFunctionsRuntime' || formats },
    });
  }, takesFormats);
}

/** Data types travel as JSON inside an object; everything else as it is. */
function onTheWire(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(onTheWire);
  return typeof value === 'object' && value !== null ? { value: JSON.stringify(value) } : value;
}

let calls = 0;

export interface Call {
  readonly name: string;
  readonly given: readonly unknown[];
  /** Whether objects among the cells are data types (the later shape) or errors in the earlier shape. */
  readonly dataTypes?: boolean;
  /** Whether functions.json says of the function that it can be cancelled. */
  readonly cancelable?: boolean;
  /** Whether it is cancelled in the same breath. */
  readonly cancelled?: boolean;
}

const cancellationOf = (number: number): unknown[] => [
  1,
  1001,
  '',
  JSON.stringify({ invocationId: number }),
  0,
];

const tell = (page: Page, entries: unknown[]): Promise<void> =>
  page.evaluate(
    (text) => (window as unknown as HostWindow)._richApiNativeBridge.onMessageFromHost(text),
    JSON.stringify({ type: 3, message: { entries } }),
  );

/** Sends calls to the runtime in one message, as Excel does; gives their numbers. */
export async function send(page: Page, batch: readonly Call[]): Promise<number[]> {
  const numbers = batch.map(() => (calls += 1));
  const entries = batch.flatMap(({ name, given, dataTypes = true, cancelable, cancelled }, position) => {
    const flags = ERRORS_ALLOWED + (dataTypes ? DATA_TYPES : 0) + (cancelable || cancelled ? CANCELABLE : 0);
    const parameters = dataTypes ? onTheWire(given) : given;
    const call = JSON.stringify([numbers[position], name, parameters, 'Sheet1!A1', flags, null]);
    const invocation = [1, 1000, '', call, 0];
    return cancelled ? [invocation, cancellationOf(numbers[position]!)] : [invocation];
  });
  await tell(page, entries);
  return numbers;
}

/** Cancels a call that was sent before, as Excel does when a cell it reads has changed. */
export const cancel = (page: Page, number: number): Promise<void> => tell(page, [cancellationOf(number)]);

/** Whether a call has its reply. */
export const hasReply = (page: Page, number: number): Promise<boolean> =>
  page.evaluate((wanted) => (window as unknown as HostWindow).replies[wanted] !== undefined, number);

/** Waits until each of these calls has its reply. */
export async function replies(page: Page, numbers: readonly number[]): Promise<Reply[]> {
  await page.waitForFunction(
    (wanted) => wanted.every((number) => (window as unknown as HostWindow).replies[number] !== undefined),
    numbers,
  );
  return page.evaluate(
    (wanted) => wanted.map((number) => (window as unknown as HostWindow).replies[number]!),
    numbers,
  );
}

/** One call and its reply. */
export async function call(page: Page, one: Call): Promise<Reply> {
  return (await replies(page, await send(page, [one])))[0]!;
}
