import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';

/** A PDF object as qpdf writes it in JSON: names `/Like`, texts `u:like` or `b:6c6b`, references `12 0 R`. */
export type Value = null | boolean | number | string | Value[] | Dict;
export interface Dict {
  [key: string]: Value;
}

interface Entry {
  value?: Value;
  stream?: { dict: Dict; data: string };
}

/** qpdf's own form (JSON version 2) of a whole file: `qpdf[0]` is its head, `qpdf[1]` its objects. */
interface QpdfJson {
  qpdf: [Dict, Record<string, Entry>];
}

/** A PDF file taken apart by qpdf, which has nothing to do with the program that wrote it. */
export class PdfObjects {
  readonly #json: QpdfJson;

  constructor(bytes: Uint8Array) {
    const told = qpdf(
      bytes,
      '--json=2',
      '--json-key=qpdf',
      '--json-stream-data=inline',
      '--decode-level=none',
      'IN',
    );
    this.#json = JSON.parse(told.toString('utf8')) as QpdfJson;
  }

  get entries(): [reference: string, entry: Entry][] {
    return Object.entries(this.#json.qpdf[1])
      .filter(([key]) => key.startsWith('obj:'))
      .map(([key, entry]) => [key.slice('obj:'.length), entry]);
  }

  get trailer(): Dict {
    return this.#json.qpdf[1].trailer?.value as Dict;
  }

  get catalog(): Dict {
    return dictOf(this.get(this.trailer['/Root']));
  }

  /** The object behind a reference, as often as it takes; a stream gives its dictionary. */
  get(value: Value | undefined): Value {
    if (value === undefined) return null;
    if (!isReference(value)) return value;
    const entry = this.#json.qpdf[1][`obj:${value}`];
    return entry?.stream ? entry.stream.dict : this.get(entry?.value);
  }

  dict(value: Value | undefined): Dict {
    return dictOf(this.get(value));
  }

  list(value: Value | undefined): Value[] {
    const found = this.get(value);
    if (found === null) return [];
    return Array.isArray(found) ? found : [found];
  }

  /** The bytes of a stream, unpacked. */
  stream(value: Value | undefined): Buffer | null {
    const entry = isReference(value) ? this.#json.qpdf[1][`obj:${value}`] : undefined;
    if (!entry?.stream) return null;
    const bytes = Buffer.from(entry.stream.data, 'base64');
    const filters = this.list(entry.stream.dict['/Filter']);
    if (filters.length === 0) return bytes;
    if (filters.length === 1 && filters[0] === '/FlateDecode') return inflateSync(bytes);
    throw new Error(`a stream is packed with ${filters.join(', ')}`);
  }

  /** Pages in order, each with its reference. */
  get pages(): { reference: string; page: Dict }[] {
    const under = (node: Value): { reference: string; page: Dict }[] => {
      const dict = this.dict(node);
      return dict['/Type'] === '/Page'
        ? [{ reference: node as string, page: dict }]
        : this.list(dict['/Kids']).flatMap(under);
    };
    return under(this.catalog['/Pages'] as Value);
  }

  /** Replaces the bytes of a stream. */
  setStream(reference: Value | undefined, bytes: Uint8Array): void {
    const entry = this.#json.qpdf[1][`obj:${reference as string}`];
    if (!entry?.stream) throw new Error(`${reference} is no stream`);
    delete entry.stream.dict['/Filter'];
    entry.stream.data = Buffer.from(bytes).toString('base64');
  }

  /** Adds an object and gives the reference to it. */
  add(value: Value): string {
    const objects = this.#json.qpdf[1];
    const head = this.#json.qpdf[0] as { maxobjectid: number };
    head.maxobjectid += 1;
    objects[`obj:${head.maxobjectid} 0 R`] = { value };
    return `${head.maxobjectid} 0 R`;
  }

  /** Puts the file together again with all that was changed in its objects. */
  save(): Uint8Array {
    return qpdf(Buffer.from(JSON.stringify(this.#json)), '--json-input', 'IN', '-');
  }
}

export const isReference = (value: unknown): value is string =>
  typeof value === 'string' && /^\d+ \d+ R$/.test(value);

const dictOf = (value: Value): Dict =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? value : {};

/** The characters of a text object; null for anything else. */
export function textOf(value: Value | undefined): string | null {
  if (typeof value !== 'string') return null;
  if (value.startsWith('u:')) return value.slice(2);
  return value.startsWith('b:') ? Buffer.from(value.slice(2), 'hex').toString('latin1') : null;
}

function qpdf(bytes: Uint8Array, ...words: string[]): Buffer {
  const folder = mkdtempSync(join(tmpdir(), 'thrice-qpdf-'));
  try {
    const [from, to] = [join(folder, 'in'), join(folder, 'out')];
    writeFileSync(from, bytes);
    const toFile = words.at(-1) === '-';
    const run = spawnSync(
      'qpdf',
      words.map((word) => (word === 'IN' ? from : word === '-' ? to : word)),
      { maxBuffer: 1 << 28 },
    );
    // 3 stands for warnings alone.
    if (run.status !== 0 && run.status !== 3) throw new Error(`qpdf: ${run.stderr}`);
    return toFile ? readFileSync(to) : run.stdout;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
