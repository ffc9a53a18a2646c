import { randomUUID } from 'node:crypto';
import type { Stats } from 'node:fs';
import {
  access,
  chmod,
  chown,
  constants,
  lstat,
  readFile,
  realpath,
  rename,
  rm,
  stat,
  writeFile,
} from 'node:fs/promises';
import { dirname, join, resolve, sep } from 'node:path';
import { WorkbookFileError } from '../xlsx/package';
import { CommandFault } from './command';

export async function bytesOf(path: string, needed = 'an .xlsx file'): Promise<Uint8Array> {
  const there = await stat(path).catch(() => undefined);
  // Some devices never end.
  if (there?.isCharacterDevice() && path.startsWith('/dev/') && !/^\/dev\/(?:stdin|fd\/)/.test(path))
    throw new CommandFault(`${path}: this is a device, ${needed} is needed`);
  try {
    return await readFile(path);
  } catch (fault) {
    const isFolder = (fault as NodeJS.ErrnoException).code === 'EISDIR';
    throw new CommandFault(
      `${path}: ${isFolder ? `this is a folder, ${needed} is needed` : systemReason(fault)}`,
    );
  }
}

export function aboutFile<T>(path: string, read: () => T): T {
  try {
    return read();
  } catch (fault) {
    throw fault instanceof WorkbookFileError ? new CommandFault(`${path}: ${fault.message}`) : fault;
  }
}

/** A file to write, and the one that is there now. */
export interface Target {
  /** As it was asked for. */
  readonly path: string;
  /** Where it is: a link is followed. */
  readonly place: string;
  readonly now: Pick<Stats, 'mode' | 'uid' | 'gid' | 'nlink'> | undefined;
}

const ANYONE_MAY_WRITE = 0o222;

/** @throws CommandFault where it cannot or may not be written */
export async function targetOf(path: string): Promise<Target> {
  const refused = (why: string): CommandFault => new CommandFault(`${path}: ${why}`);
  if (path === '') throw new CommandFault('--out needs the name of a file to write');
  if (path.endsWith('/') || path.endsWith(sep)) throw refused('this is a folder, a file to write is needed');
  // Where the output goes to may be a file, in which the results are told.
  if (resolve(path).startsWith('/dev/'))
    throw refused('this is a device or a pipe, a file to write is needed');
  const there = await lstat(path).catch(() => undefined);
  const place = there ? await realpath(path).catch(() => undefined) : path;
  if (place === undefined) throw refused('this is a link that leads nowhere');
  const folder = await stat(dirname(place)).catch(() => undefined);
  if (!folder?.isDirectory()) throw refused(`there is no folder ${dirname(path)}`);
  if (!there) return { path, place, now: undefined };
  const now = await stat(place);
  if (now.isDirectory()) throw refused('this is a folder, a file to write is needed');
  if (!now.isFile()) throw refused('this is a device or a pipe, a file to write is needed');
  const mayWrite = await access(place, constants.W_OK).then(
    () => (now.mode & ANYONE_MAY_WRITE) !== 0,
    () => false,
  );
  if (!mayWrite) throw refused('this file is read-only');
  return { path, place, now };
}

/** Writes beside the file and moves it into place, so that the old file is never half overwritten. */
export async function writeWhole({ path, place, now }: Target, bytes: Uint8Array): Promise<void> {
  const draft = join(dirname(place), `.pinset-${randomUUID()}`);
  try {
    // Nobody else may read the draft of a private file, not even for a moment.
    await writeFile(draft, bytes, now && { mode: 0o600 });
    if (now) await chmod(draft, now.mode & 0o7777);
    // A file of several names stays one.
    const isOurs = now === undefined || (now.nlink === 1 && (await hasOwner(draft, now)));
    if (isOurs) await rename(draft, place);
    else await writeFile(place, bytes);
  } catch (fault) {
    throw new CommandFault(`${path}: ${systemReason(fault)}`);
  } finally {
    await rm(draft, { force: true });
  }
}

/** Gives a file the owner of the one it takes the place of; false where the system does not allow it. */
async function hasOwner(path: string, { uid, gid }: { uid: number; gid: number }): Promise<boolean> {
  const its = await stat(path);
  if (its.uid === uid && its.gid === gid) return true;
  return chown(path, uid, gid).then(
    () => true,
    () => false,
  );
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'this may not be opened',
  EPERM: 'this may not be opened',
  EBUSY: 'another program has the file open',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  EROFS: 'nothing can be written there',
  ENAMETOOLONG: 'this name is too long',
};

const systemReason = (fault: unknown): string =>
  REASONS[(fault as NodeJS.ErrnoException).code ?? ''] ?? (fault as Error).message;
