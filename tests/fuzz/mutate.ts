// What is put into files to upset them: not clinical numbers.

import type { Random } from './random.js';

const NUMBERS =
  '0 -0 -1 1 00 0.0 .5 1. 1e3 1e309 -1e309 NaN Infinity 1e-320 0x10 1,5 1.234,5 1_000 ½ ٣ 1/2 1/0 3 1/2 2147483648 99999999999999999999'.split(
    ' ',
  );
const WORDS = [
  '',
  ' ',
  '~',
  'null',
  'true',
  'yes',
  '-',
  '---',
  '...',
  '?',
  ':',
  '#',
  '"',
  "'",
  '[',
  '{',
  '}',
  '|',
  '>',
  '&a',
  '*a',
  '!!binary',
  '!!js/function',
  '%',
  '@',
  '`',
  ',',
  ';',
  '\t',
  '\u0000',
  '\u2028',
  '\u202e',
  '\ufeff',
  '\ud83d\ude00',
  'é',
  'e\u0301',
  'ｆｕｌｌ',
  '<script>alert(1)</script>',
  '](javascript:alert(1))',
  '![x](file:///etc/passwd)',
  '../../etc/passwd',
  '=HYPERLINK("x")',
  '__proto__',
  'constructor',
  'toString',
  '2026-02-30',
  '2024-02-29',
  '9999-12-31',
  '0000-00-00',
  '24:00',
  '23:59:60',
  '02:30',
  '-1 kg',
  '0 kg',
  '1e9 mg',
  '5 years',
  '12 h',
  '1 tablets',
  'A'.repeat(5000),
];

type Change = (text: string, random: Random) => string;

const cut = (text: string, random: Random): [number, number] => {
  const from = random.below(text.length + 1);
  return [from, Math.min(text.length, from + random.below(40))];
};

const lines =
  (change: (rows: string[], random: Random) => void): Change =>
  (text, random) => {
    const rows = text.split('\n');
    change(rows, random);
    return rows.join('\n');
  };

/** Replaces one of the places that a pattern finds. */
const oneOf =
  (pattern: RegExp, put: (found: string, random: Random) => string): Change =>
  (text, random) => {
    const places = [...text.matchAll(pattern)];
    if (places.length === 0) return text;
    const place = random.pick(places);
    const [found] = place;
    return text.slice(0, place.index) + put(found, random) + text.slice(place.index + found.length);
  };

/** Changes that know of lines, numbers, words and keys. */
const CHANGES: readonly Change[] = [
  oneOf(/-?\d+(?:\.\d+)?/g, (_, random) => random.pick(NUMBERS)),
  oneOf(/-?\d+(?:\.\d+)?/g, (found, random) =>
    String(Number(found) * random.pick([-1, 0, 0.001, 10, 1000, 1e9])),
  ),
  oneOf(/[\p{L}\d_%/.-]+/gu, (_, random) => random.pick(WORDS)),
  oneOf(/(?<=: ).+$/gm, (_, random) => random.pick(WORDS)),
  oneOf(/^ *[\w ]+(?=:)/gm, (found, random) =>
    random.pick([`${found}x`, found.toUpperCase(), found.trim(), `  ${found}`, '__proto__']),
  ),
  (text, random) => {
    const words = [...text.matchAll(/[\p{L}\d]+/gu)];
    if (words.length < 2) return text;
    return oneOf(/[\p{L}\d]+/gu, () => random.pick(words)[0])(text, random);
  },
  lines((rows, random) => rows.splice(random.below(rows.length), 1 + random.below(3))),
  lines((rows, random) => {
    const row = rows[random.below(rows.length)] as string;
    rows.splice(
      random.below(rows.length + 1),
      0,
      ...Array<string>(random.pick([1, 1, 2, 300])).fill(row),
    );
  }),
  lines((rows, random) => {
    const [a, b] = [random.below(rows.length), random.below(rows.length)];
    [rows[a], rows[b]] = [rows[b] as string, rows[a] as string];
  }),
  lines((rows, random) => {
    const at = random.below(rows.length);
    rows[at] = `${' '.repeat(random.below(9))}${(rows[at] as string).trimStart()}`;
  }),
  (text, random) => {
    const [from, to] = cut(text, random);
    return text.slice(0, from) + text.slice(to);
  },
  (text, random) => {
    const [from] = cut(text, random);
    return text.slice(0, from) + random.pick(WORDS) + text.slice(from);
  },
  (text, random) => text.slice(0, random.below(text.length + 1)),
  (text) => text.replaceAll('\n', '\r\n'),
  (text, random) =>
    text.replaceAll(random.pick([',', ':', ' ', '-', '.']), random.pick([';', '\t', ' ', ''])),
];

/** A text with a few changes. */
export function changedText(text: string, random: Random): string {
  let changed = text;
  for (let left = 1 + random.below(3); left > 0; left--)
    changed = random.pick(CHANGES)(changed, random);
  return changed;
}

/** A parsed record with one value changed, moved, doubled or taken out: still YAML, so that what follows is reached. */
export function changedValue(record: unknown, random: Random): unknown {
  const copy = structuredClone(record);
  const places: { holder: Record<string, unknown>; key: string }[] = [];
  const walk = (holder: unknown): void => {
    if (typeof holder !== 'object' || holder === null) return;
    for (const key of Object.keys(holder)) {
      places.push({ holder: holder as Record<string, unknown>, key });
      walk((holder as Record<string, unknown>)[key]);
    }
  };
  walk(copy);
  const { holder, key } = random.pick(places);
  const other = random.pick(places);
  const value = holder[key];
  const kind = random.below(5);
  if (kind === 0) delete holder[key];
  else if (kind === 1) holder[key] = structuredClone(other.holder[other.key]);
  else if (kind === 2) holder[key] = random.pick([...WORDS, ...NUMBERS]);
  else if (typeof value === 'string' && kind === 3) {
    holder[key] = value.replace(/\d+(?:\.\d+)?/, (found) =>
      random.chance(0.5)
        ? random.pick(NUMBERS)
        : String(Number(found) + random.pick([-1, 1, 10, -10, 100])).padStart(found.length, '0'),
    );
  } else if (Array.isArray(value)) holder[key] = [...value, ...value];
  else holder[key] = typeof value === 'string' ? changedText(value, random) : [value];
  return copy;
}

/** Bytes with a few of them changed, taken out, doubled, moved or cut off. */
export function changedBytes(bytes: Uint8Array, random: Random): Uint8Array {
  let changed: Uint8Array = Uint8Array.from(bytes);
  for (let left = 1 + random.below(4); left > 0; left--) {
    // The head of a file says how the rest is to be read.
    const reach = random.chance(0.6) ? Math.min(changed.length, 1024) : changed.length;
    const at = random.below(reach + 1);
    const length = random.pick([1, 1, 2, 4, 16, 256]);
    const [head, rest] = [changed.subarray(0, at), changed.subarray(at + length)];
    const piece = changed.subarray(at, at + length);
    switch (random.below(6)) {
      case 0:
        changed = joined(
          head,
          piece.map((byte) => byte ^ (1 << random.below(8))),
          rest,
        );
        break;
      case 1:
        changed = joined(
          head,
          piece.fill(random.pick([0, 0x20, 0x2d, 0x30, 0x39, 0x7f, 0x80, 0xff])),
          rest,
        );
        break;
      case 2:
        changed = joined(head, rest);
        break;
      case 3:
        changed = joined(head, piece, piece, rest);
        break;
      case 4:
        changed = joined(
          head,
          piece.map(() => random.below(256)),
          rest,
        );
        break;
      default:
        if (random.chance(0.3)) changed = Uint8Array.from(head);
    }
  }
  return changed;
}

const joined = (...parts: readonly Uint8Array[]): Uint8Array =>
  new Uint8Array(Buffer.concat(parts));
