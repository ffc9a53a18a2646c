/// <reference types="office-js" />
import '../pane/pane.css';
import { BUILD } from './build';

// Excel keeps the functions' script for up to a day, while this page is new: what the pane takes from that script must
// be of the same build. So the builds are compared before anything of the pane runs.

const functions = (window as { readonly pinset?: { readonly BUILD?: string } }).pinset;

/** The page has the words; without this it shows them where no script came. */
const tellOfTwoVersions = (): void => document.querySelector('.late')!.classList.add('now');

async function open(): Promise<void> {
  await Office.onReady();
  if (functions?.BUILD !== BUILD) return tellOfTwoVersions();
  const { openBesideBook } = await import(/* webpackChunkName: "pane" */ './openPane');
  openBesideBook(document.getElementById('pane')!);
}

void open().catch((fault: unknown) => {
  console.error(fault);
  tellOfTwoVersions();
});
