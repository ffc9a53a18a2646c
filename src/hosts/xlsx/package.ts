import { deflateSync, inflateSync } from 'fflate';

/** A file that cannot be read, or a change that cannot be made to it: the message is one sentence for its owner. */
export class WorkbookFileError extends Error {}

/** Bounds on what a file may unfold to, far above a workbook of a whole co-operative. */
const MOST_ENTRIES = 20_000;
const MOST_BYTES = 1_000_000_000;
const MOST_BYTES_OF_A_PART = 200_000_000;

const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const LOCAL_ENTRY = 0x04034b50;
const ENCRYPTED = 1;
const SIZES_FOLLOW = 8;
const NAME_IS_UTF8 = 0x800;
const STORED = 0;
const DEFLATED = 8;
/** 1 January 1980, midnight, the first moment a zip can write: what is rewritten carries no clock. */
const FIRST_DATE = 0x21;

interface Entry {
  readonly name: string;
  readonly nameBytes: Uint8Array;
  readonly flags: number;
  readonly method: number;
  readonly time: number;
  readonly date: number;
  readonly checksum: number;
  readonly size: number;
  /** As they stand in the file. */
  readonly packed: Uint8Array;
  readonly internal: number;
  readonly external: number;
}

/**
 * The parts of an Office file (ISO/IEC 29500-2: a zip). Parts that nobody changes are copied as they are packed, byte
 * for byte; packing and unpacking themselves are fflate's. Of the kept libraries only zip.js passes packed parts
 * through. It brings 37 to 72 KB gzipped where this file and fflate take 6, and makes every step asynchronous. It would
 * also leave us the bounds and the messages, which are half of this file.
 */
export class Package {
  private readonly byName: ReadonlyMap<string, Entry>;

  /** A file without parts, to which they are added. */
  static readonly EMPTY = new Package([]);

  private constructor(private readonly entries: readonly Entry[]) {
    this.byName = new Map(entries.map((entry) => [entry.name.toLowerCase(), entry]));
  }

  /** @throws WorkbookFileError where the bytes are no sound Office file */
  static open(bytes: Uint8Array): Package {
    if (bytes.length === 0) throw new WorkbookFileError('the file is empty');
    if (startsWith(bytes, [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1])) {
      throw new WorkbookFileError(
        includes(bytes, utf16('EncryptedPackage'))
          ? 'the file is protected by a password: take the password off in the spreadsheet program first'
          : 'this is not an .xlsx workbook but an older kind of Office file: save it as .xlsx first',
      );
    }
    if (!startsWith(bytes, [0x50, 0x4b])) throw new WorkbookFileError('this is not an .xlsx workbook');
    return new Package(readDirectory(bytes));
  }

  get names(): readonly string[] {
    return this.entries.map(({ name }) => name);
  }

  has(name: string): boolean {
    return this.find(name) !== undefined;
  }

  /** The bytes of a part, checked against the checksum stored with it. */
  bytes(name: string): Uint8Array {
    const entry = this.find(name);
    if (!entry) throw damaged(`its part ${name} is missing`);
    if (entry.flags & ENCRYPTED) throw new WorkbookFileError('the file is protected by a password');
    if (entry.size > MOST_BYTES_OF_A_PART) throw new WorkbookFileError(`its part ${name} is too large`);
    const bytes = unpack(entry);
    if (bytes.length !== entry.size || crc32(bytes) !== entry.checksum) {
      throw damaged(`its part ${name} does not match its checksum`);
    }
    return bytes;
  }

  /** A part as text. A byte order mark stays, so that the text encodes to the same bytes again. */
  text(name: string): string {
    const bytes = this.bytes(name);
    try {
      return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    } catch {
      throw damaged(`its part ${name} is not UTF-8 text`);
    }
  }

  /** The file with some parts replaced or, at its end, added; null takes a part out. */
  with(changes: ReadonlyMap<string, string | null>): Uint8Array {
    const byName = new Map([...changes].map(([name, text]) => [name.toLowerCase(), text]));
    const kept = this.entries.flatMap((entry) => {
      const change = byName.get(entry.name.toLowerCase());
      if (change === undefined) return [entry];
      return change === null ? [] : [repacked(entry, change)];
    });
    const added = [...changes].flatMap(([name, text]) =>
      text === null || this.has(name) ? [] : [packed(name, text)],
    );
    return writeZip([...kept, ...added]);
  }

  /** Part names do not tell capitals from small letters (ISO/IEC 29500-2, 6.2.2.3). */
  private find(name: string): Entry | undefined {
    return this.byName.get(name.toLowerCase());
  }
}

const damaged = (how: string): WorkbookFileError => new WorkbookFileError(`the file is damaged: ${how}`);

function readDirectory(bytes: Uint8Array): Entry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const cutShort = damaged('it ends too early or is no zip file');
  let end = bytes.length - 22;
  const lowest = Math.max(0, end - 0xffff);
  while (end >= lowest && view.getUint32(end, true) !== END_OF_DIRECTORY) end--;
  if (end < lowest) throw cutShort;
  const count = view.getUint16(end + 10, true);
  if (count > MOST_ENTRIES || count === 0xffff) throw new WorkbookFileError('the file has too many parts');
  let at = view.getUint32(end + 16, true);
  let total = 0;
  const entries: Entry[] = [];
  try {
    for (let n = 0; n < count; n++) {
      if (view.getUint32(at, true) !== DIRECTORY_ENTRY) throw cutShort;
      const nameLength = view.getUint16(at + 28, true);
      const nameBytes = bytes.subarray(at + 46, at + 46 + nameLength);
      const packedSize = view.getUint32(at + 20, true);
      const local = view.getUint32(at + 42, true);
      if (view.getUint32(local, true) !== LOCAL_ENTRY) throw cutShort;
      const data = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
      if (data + packedSize > bytes.length) throw cutShort;
      const entry: Entry = {
        // Some programs write the separators of their own system.
        name: new TextDecoder().decode(nameBytes).replaceAll('\\', '/'),
        nameBytes,
        flags: view.getUint16(at + 8, true),
        method: view.getUint16(at + 10, true),
        time: view.getUint16(at + 12, true),
        date: view.getUint16(at + 14, true),
        checksum: view.getUint32(at + 16, true),
        size: view.getUint32(at + 24, true),
        packed: bytes.subarray(data, data + packedSize),
        internal: view.getUint16(at + 36, true),
        external: view.getUint32(at + 38, true),
      };
      total += entry.size;
      if (total > MOST_BYTES)
        throw new WorkbookFileError('the file unfolds to more than a workbook can hold');
      entries.push(entry);
      at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    }
  } catch (fault) {
    throw fault instanceof RangeError ? cutShort : fault;
  }
  return entries;
}

/** Never fills more than the size the directory promises, whatever the packed bytes unfold to. */
function unpack({ name, method, packed: data, size }: Entry): Uint8Array {
  if (method === STORED) return data;
  if (method !== DEFLATED) throw damaged(`its part ${name} is packed in an unknown way`);
  try {
    return inflateSync(data, { out: new Uint8Array(size) });
  } catch {
    throw damaged(`its part ${name} cannot be unpacked`);
  }
}

function packed(name: string, text: string): Entry {
  const nameBytes = new TextEncoder().encode(name);
  return repacked({ ...NEW_ENTRY, name, nameBytes }, text);
}

const NEW_ENTRY: Entry = {
  name: '',
  nameBytes: new Uint8Array(),
  flags: NAME_IS_UTF8,
  method: DEFLATED,
  time: 0,
  date: FIRST_DATE,
  checksum: 0,
  size: 0,
  packed: new Uint8Array(),
  internal: 0,
  external: 0,
};

function repacked(entry: Entry, text: string): Entry {
  const bytes = new TextEncoder().encode(text);
  return {
    ...entry,
    flags: entry.flags & NAME_IS_UTF8,
    method: DEFLATED,
    time: 0,
    date: FIRST_DATE,
    checksum: crc32(bytes),
    size: bytes.length,
    // A large part packs twice as fast for a hundredth of its size.
    packed: deflateSync(bytes, { level: bytes.length > 1_000_000 ? 4 : 6 }),
  };
}

function writeZip(entries: readonly Entry[]): Uint8Array {
  const body = entries.reduce(
    (sum, { nameBytes, packed: data }) => sum + 76 + 2 * nameBytes.length + data.length,
    22,
  );
  const bytes = new Uint8Array(body);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const u16 = (value: number): void => {
    view.setUint16(at, value, true);
    at += 2;
  };
  const u32 = (value: number): void => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const raw = (data: Uint8Array): void => {
    bytes.set(data, at);
    at += data.length;
  };
  const common = (entry: Entry): void => {
    u16(20);
    u16(entry.flags & ~SIZES_FOLLOW);
    u16(entry.method);
    u16(entry.time);
    u16(entry.date);
    u32(entry.checksum);
    u32(entry.packed.length);
    u32(entry.size);
    u16(entry.nameBytes.length);
    u16(0);
  };
  const places: number[] = [];
  for (const entry of entries) {
    places.push(at);
    u32(LOCAL_ENTRY);
    common(entry);
    raw(entry.nameBytes);
    raw(entry.packed);
  }
  const directory = at;
  entries.forEach((entry, n) => {
    u32(DIRECTORY_ENTRY);
    u16(20);
    common(entry);
    u16(0);
    u16(0);
    u16(entry.internal);
    u32(entry.external);
    u32(places[n]!);
    raw(entry.nameBytes);
  });
  const size = at - directory;
  u32(END_OF_DIRECTORY);
  u16(0);
  u16(0);
  u16(entries.length);
  u16(entries.length);
  u32(size);
  u32(directory);
  u16(0);
  return bytes;
}

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) c = CRC_TABLE[(c ^ bytes[i]!) & 0xff]! ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

const startsWith = (bytes: Uint8Array, start: readonly number[]): boolean =>
  start.every((byte, i) => bytes[i] === byte);

const utf16 = (text: string): number[] => [...text].flatMap((letter) => [letter.charCodeAt(0), 0]);

function includes(bytes: Uint8Array, part: readonly number[]): boolean {
  for (let at = bytes.indexOf(part[0]!); at >= 0; at = bytes.indexOf(part[0]!, at + 1)) {
    if (part.every((byte, i) => bytes[at + i] === byte)) return true;
  }
  return false;
}
