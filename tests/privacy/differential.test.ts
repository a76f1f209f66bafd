import { deserialize, serialize } from 'node:v8';
import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { opened } from '../../src/privacy/bytes/open.js';
import { NO_OWN_TEXT, type OwnText, ownTextOf } from '../../src/privacy/own-text.js';
import { type Sought, searchFor, soughtFrom } from '../../src/privacy/search/search.js';
import {
  bytesOf,
  edf,
  flate,
  gzip,
  joined,
  pdf,
  png,
  pngChunk,
  utf16be,
  zip,
} from './bytes/wrapped.js';
import { plainSearch, readingsOf } from './reference.js';

/** As builds keep it for one another. */
const readAgain = (sought: Sought): Sought => deserialize(serialize(sought));

/**
 * The search against a plain and slow one (`reference.ts`), on texts from a seed in which identifiers are planted in every
 * way of writing and packing: in each piece both must find the same identifiers at the same bytes, and in all pieces
 * together what is found in the text decoded whole.
 */

const generator = (seed: number) => {
  let state = seed;
  return (below: number): number => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return (state >> 8) % below;
  };
};
type Random = ReturnType<typeof generator>;
const one = <T>(random: Random, of: readonly T[]): T => of[random(of.length)] as T;

const SYLLABLES =
  'ba bri co dra el fe go ha ju ka lo mu ni or pe qui ra si to ve wa ya zo ñu é ö ß'.split(' ');
const ENDS = ['', 'n', 'r', 's', 'l', 'nd', 'm'];
const name = (random: Random): string => {
  const letters =
    Array.from({ length: 1 + random(3) }, () => one(random, SYLLABLES)).join('') +
    one(random, ENDS);
  return (letters[0] as string).toUpperCase() + letters.slice(1);
};
const day = (random: Random): string =>
  `${2024 + random(3)}-${String(1 + random(12)).padStart(2, '0')}-${String(1 + random(28)).padStart(2, '0')}`;
const digits = (random: Random, count: number) =>
  Array.from({ length: count }, () => random(10)).join('');

/** Names, words of names, addresses, numbers, days; also of other scripts and of two or three letters. */
function identifiers(random: Random, count: number) {
  const texts = new Set<string>([
    'Юнипер',
    '山田太郎',
    'Rose',
    'Ash',
    'Bo',
    'Heart',
    "Ada O'Muñoz-Quill",
    '𝒜da Quill',
  ]);
  while (texts.size < count) {
    const [a, b] = [name(random), name(random)];
    for (const text of [
      a,
      `${a} ${b}`,
      `${random(200)} ${b} Street, ${a}`,
      `R-${digits(random, 4)}-${digits(random, 5)}`,
      `555 ${digits(random, 4)}`,
      `+34 ${digits(random, 3)} ${digits(random, 3)} ${digits(random, 3)}`,
      `999${digits(random, 12)}`,
      digits(random, 4),
      `${a.toLowerCase()}@${b.toLowerCase()}.example`,
      day(random),
      day(random),
    ]) {
      texts.add(text);
    }
  }
  return [...texts].map((text) => ({ what: `what is called ${text}`, text }));
}

/** Text that gives the search something to stumble over. */
function filler(random: Random, length: number): string {
  const parts = [
    () => name(random),
    () => name(random).toLowerCase(),
    () => ' ',
    () => ', ',
    () => '"><',
    () => '<b>',
    () => '</p>',
    () => '\n  ',
    () => `${random(300)}.${random(10)}`,
    () => ` ${random(32)} ${random(13)} ${random(100)}`,
    () => `M${random(99)} ${random(99)}L`,
    () =>
      one(random, [
        '&amp;',
        '&#39;',
        '%20',
        '#ad',
        '=3d',
        '\\n',
        '\\u00e9',
        '&shy;',
        '\u00ad',
        '\u200b',
        '½',
        'ﬁ',
        '㎏',
      ]),
    () => one(random, ['한글', '漢字', 'Ω', 'é', 'ß', '𝔘', '’', '—', '\u00a0']),
    () => Buffer.from(name(random)).toString('base64'),
  ];
  let text = '';
  while (text.length < length) text += one(random, parts)();
  return text;
}

const WRITTEN: readonly ((text: string, random: Random) => string)[] = [
  (text) => text,
  (text) => text.toUpperCase(),
  (text) => text.toLowerCase(),
  (text) => text.normalize('NFD'),
  (text) => [...text].join(' '),
  (text) => [...text].join('\u00ad'),
  (text) => [...text].reverse().join(''),
  (text) => text.replaceAll(' ', ' \n\t '),
  (text) => text.replaceAll(' ', ' – '),
  (text) => text.replaceAll('-', '/'),
  (text) => text.replaceAll('-', ''),
  (text) => text.replaceAll(' ', ''),
  (text) => `${text}s`,
  (text) => `of${text}`,
  (text) => `strip${text}Of`,
  (text) => text.replace(/\d{4}-(\d\d)-(\d\d)/, '$2.$1.26'),
  (text) => encodeURIComponent(text),
  (text) => [...text].map((letter) => `&#${letter.codePointAt(0)};`).join(''),
  (text) => `${text[0]}&#x${text.charCodeAt(1).toString(16)};${text.slice(2)}`,
  (text) =>
    text.replace(/[\s\S]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`),
  (text, random) => `${text.slice(0, 1 + random(3))}<b>${text.slice(2)}`,
  (text, random) => Buffer.from(`${'.'.repeat(random(4))}${text} said`).toString('base64'),
  (text) =>
    Buffer.from(`so ${text} slept`)
      .toString('base64')
      .replace(/(.{8})/g, '$1\n  '),
  (text) => Buffer.from(`so ${text} slept`, 'utf16le').toString('base64'),
  (text) => Buffer.from(text).toString('hex'),
  (text) => Buffer.from(text).toString('hex').replace(/(..)/g, '0x$1, '),
  (text) => encodeURIComponent(Buffer.from(text).toString('base64')),
];

const WRAPPED: readonly ((text: string, random: Random) => Uint8Array)[] = [
  (text) => bytesOf(text),
  (text) => bytesOf(text, 'latin1'),
  (text) => bytesOf(text, 'utf16le'),
  (text) => utf16be(text),
  (text) => joined('\x01', bytesOf(text, 'utf16le')),
  (text) => joined('\x01', utf16be(text)),
  (text) => gzip(bytesOf(text)),
  (text) => zip('a.txt', bytesOf(text)),
  (text) => png(pngChunk('tEXt', joined('Comment\0', text))),
  (text) => pdf(`<< /Title (${text}) >>`),
  (text) =>
    pdf(
      `<< /Title <${Buffer.from(text).toString('hex')}> >>`,
      flate(`BT /F1 9 Tf (${text}) Tj ET`),
    ),
  (text) =>
    pdf(['/Type /Metadata /Filter /FlateDecode', new Uint8Array(deflateSync(bytesOf(text)))]),
  (text) => joined(edf(text.slice(0, 70), '10.03.26'), text),
  (text) => bytesOf(`data:x;base64,${Buffer.from(gzip(bytesOf(text))).toString('base64')}`),
  (text, random) =>
    joined(
      Uint8Array.from({ length: 400 }, () => random(256)),
      text,
      Uint8Array.from({ length: 400 }, () => random(256)),
    ),
];

/** What the search of the build finds in a piece, as the plain one tells it. */
const fastSearch = (sought: ReturnType<typeof identifiers>, own: OwnText) => {
  const search = searchFor(readAgain(soughtFrom(sought)), own);
  return (piece: Parameters<typeof search>[0]) =>
    search(piece).map(({ identifier, start }) => `${identifier.what} @ ${start}`);
};
const whats = (found: readonly string[]) =>
  [...new Set(found.map((one) => one.replace(/ @ \d+$/, '')))].sort();

const planting = (random: Random, sought: ReturnType<typeof identifiers>, i: number) => {
  const planted = WRITTEN[i % WRITTEN.length] as (typeof WRITTEN)[number];
  return [
    filler(random, random(400)),
    planted(one(random, sought).text, random),
    filler(random, random(5000)),
    planted(one(random, sought).text, random),
    filler(random, random(400)),
  ].join(one(random, ['', ' ', '. ', '"', '\n']));
};

describe('the search tells what the plain one tells', () => {
  it.each([1, 2, 3, 4])('of each piece of a wrapped text, seed %i', (seed) => {
    const random = generator(seed);
    const sought = identifiers(random, 30 * seed ** 2);
    const own = ownTextOf([{ place: 'x', text: 'the old Rose and her' }], ['heart', 'rose']);
    const [fast, plain] = [fastSearch(sought, own), plainSearch(sought, own)];
    let hits = 0;
    for (let i = 0; i < 100; i++) {
      const text = planting(random, sought, i);
      for (const piece of opened(one(random, WRAPPED)(text, random)).pieces) {
        const expected = plain(piece).sort();
        hits += expected.length;
        expect(fast(piece).sort(), JSON.stringify(text)).toEqual(expected);
      }
    }
    expect(hits, 'some were found').toBeGreaterThan(50);
  });

  it.each([5, 6, 7])('of a text that is decoded whole, seed %i', (seed) => {
    const random = generator(seed);
    const sought = identifiers(random, 200);
    const [fast, plain] = [fastSearch(sought, NO_OWN_TEXT), plainSearch(sought, NO_OWN_TEXT)];
    let hits = 0;
    for (let i = 0; i < 100; i++) {
      const text = Buffer.from(planting(random, sought, i)).toString('latin1');
      const expected = whats(readingsOf(text).flatMap(plain));
      hits += expected.length;
      const pieces = opened(bytesOf(text, 'latin1')).pieces;
      expect(whats(pieces.flatMap(fast)), JSON.stringify(text)).toEqual(expected);
    }
    expect(hits, 'some were found').toBeGreaterThan(50);
  });

  it('about tags that are not closed, and quotes that are not', () => {
    const sought = [{ what: 'a name', text: 'Juniper' }];
    const [fast, plain] = [fastSearch(sought, NO_OWN_TEXT), plainSearch(sought, NO_OWN_TEXT)];
    const random = generator(10);
    const parts = [
      '<b',
      '<!--',
      '-->',
      '>',
      ' ',
      '"',
      "'",
      '</i>',
      '<?',
      'x',
      'Jun<b>iper',
      "Ju<b 'z'>niper",
    ];
    for (let i = 0; i < 3000; i++) {
      const text = Array.from({ length: 1 + random(12) }, () => one(random, parts)).join('');
      expect(whats(opened(bytesOf(text)).pieces.flatMap(fast)), text).toEqual(
        whats(readingsOf(text).flatMap(plain)),
      );
    }
  });

  it.each([7, 8, 9])('about random bytes, seed %i', (seed) => {
    const random = generator(seed);
    const sought = identifiers(random, 600);
    const [fast, plain] = [fastSearch(sought, NO_OWN_TEXT), plainSearch(sought, NO_OWN_TEXT)];
    for (const most of [256, 128, 16]) {
      // Few kinds of bytes, of those that matter, make chance hits likely.
      const alphabet = Array.from({ length: most }, (_, i) =>
        most === 256 ? i : 0x20 + random(0x60),
      );
      const bytes = Uint8Array.from({ length: 10_000 }, () => one(random, alphabet));
      for (const sort of ['text', 'guessed', 'binary', 'packed'] as const) {
        const piece = { bytes, sort, wide: true };
        expect(fast(piece).sort()).toEqual(plain(piece).sort());
      }
    }
  });
});
