// The workbook that is open, kept in this browser alone: a page that was closed or that broke has it again.

const DATABASE = 'pinset-workbench';
const STORE = 'books';
const KEY = 'open';

export interface KeptBook {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly added: readonly string[];
  /** Whether anything differed from the file that was opened or saved last. */
  readonly isChanged: boolean;
  /** When, in milliseconds since 1970. */
  readonly at: number;
}

/** The book that was open last; undefined where none is kept or the browser keeps nothing. */
export const keptBook = (): Promise<KeptBook | undefined> =>
  inStore('readonly', (store) => store.get(KEY) as IDBRequest<KeptBook | undefined>).catch(() => undefined);

/** Keeps a book in place of the one before. @returns whether the browser keeps it */
export const keepBook = (book: KeptBook): Promise<boolean> =>
  inStore('readwrite', (store) => store.put(book, KEY)).then(
    () => true,
    () => false,
  );

export const forgetBook = (): Promise<void> =>
  inStore('readwrite', (store) => store.delete(KEY)).catch(() => undefined);

const PLACE = 'pinset-workbench-place';

export interface KeptPlace {
  readonly name: string;
  readonly sheet: string;
  readonly address: string;
}

/** Keeps where the person is in the book: at once, for a page that breaks says nothing before it does. */
export function keepPlace(place: KeptPlace): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(place));
  } catch {
    // A browser that keeps nothing opens the book at its first sheet.
  }
}

export function keptPlace(name: string): KeptPlace | undefined {
  try {
    const kept = JSON.parse(localStorage.getItem(PLACE) ?? 'null') as KeptPlace | null;
    return kept?.name === name ? kept : undefined;
  } catch {
    return undefined;
  }
}

export function forgetPlace(): void {
  try {
    localStorage.removeItem(PLACE);
  } catch {
    // Then there is none.
  }
}

/** @throws DOMException where the browser refuses, also as late as when it puts on its disk what it took */
async function inStore<R>(
  mode: IDBTransactionMode,
  ask: (store: IDBObjectStore) => IDBRequest<R>,
): Promise<R> {
  const database = await opened();
  try {
    return await new Promise((resolve, reject) => {
      const transaction = database.transaction(STORE, mode);
      const request = ask(transaction.objectStore(STORE));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onabort = () => reject(transaction.error ?? new DOMException('Not kept', 'AbortError'));
    });
  } finally {
    database.close();
  }
}

function opened(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(DATABASE, 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore(STORE);
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error!);
  });
}
