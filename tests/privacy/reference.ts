// Choices of the method and codes of file formats: not clinical numbers.

import type { Piece } from '../../src/privacy/bytes/piece.js';
import type { Identifier } from '../../src/privacy/identifiers.js';
import type { OwnText } from '../../src/privacy/own-text.js';
import { evidence, isMeant, type Match, stands, viewOf } from '../../src/privacy/search/match.js';
import {
  type Encoding,
  lettersBetween,
  readerOf,
  WIDEST_GAP,
} from '../../src/privacy/search/read.js';
import { type Spelling, spellingsOf } from '../../src/privacy/search/spellings.js';

/**
 * The search as plainly as it can be written: every spelling is tried at every letter, and every text is decoded whole.
 * What a spelling is, and when letters stand as one, is the same code (`spellings.ts`, `match.ts`): the tests of those say
 * that by hand. Everything that makes the search of the build fast is left out here.
 */

const ENOUGH = { text: 0, guessed: 28, binary: 40, packed: 56 } as const;

/** What is found in a piece, each as `what @ start`: of each identifier the place that ends first. */
export function plainSearch(identifiers: readonly Identifier[], own: OwnText) {
  // By their first two letters, so that not all of them are tried at each.
  const beginning = new Map<string, [Spelling, Identifier][]>();
  for (const identifier of identifiers) {
    for (const spelling of spellingsOf(identifier.text)) {
      const [first, second] = spelling.letters;
      if (second === undefined) continue;
      const begins = `${first} ${second}`;
      beginning.set(begins, [...(beginning.get(begins) ?? []), [spelling, identifier]]);
    }
  }
  const found = (bytes: Uint8Array, sort: Piece['sort'], encoding: Encoding): string[] => {
    const read = readerOf(bytes, encoding);
    const letters = lettersBetween(read, 0, bytes.length - 1, Number.POSITIVE_INFINITY);
    const stopOf = (start: number): number => start + (read(start) & 7);
    const hits = new Map<Identifier, { start: number; stop: number }>();
    letters.forEach(({ letter, start }, index) => {
      for (const [spelling, identifier] of beginning.get(
        `${letter} ${letters[index + 1]?.letter}`,
      ) ?? []) {
        const end = index + spelling.letters.length;
        const isThere = spelling.letters.every(
          (one, i) =>
            letters[index + i]?.letter === one &&
            (i === 0 || (letters[index + i]?.gap as number) <= WIDEST_GAP),
        );
        if (!isThere) continue;
        const stop = stopOf(letters[end - 1]?.start as number);
        const seen = letters.slice(Math.max(0, index - 1), end);
        const match: Match = { ...viewOf(seen, spelling, index === 0), stop, bytes, read };
        const known = hits.get(identifier);
        if (known && (known.stop < stop || (known.stop === stop && known.start <= start))) continue;
        if (!stands(match) || !isMeant(match, own)) continue;
        if (ENOUGH[sort] > 0 && evidence(match, encoding !== 'UTF-8') < ENOUGH[sort]) continue;
        hits.set(identifier, { start, stop });
      }
    });
    return [...hits].map(([{ what }, { start }]) => `${what} @ ${start}`);
  };
  return ({ bytes, sort, wide }: Pick<Piece, 'bytes' | 'sort' | 'wide'>): string[] => {
    if (!wide) return found(bytes, sort, 'UTF-8');
    const unlikely = sort === 'text' ? 'guessed' : 'binary';
    const moved = (one: string) => one.replace(/\d+$/, (start) => String(Number(start) + 1));
    return [
      ...found(bytes, sort, 'UTF-8'),
      ...(['UTF-16LE', 'UTF-16BE'] as const).flatMap((encoding) => [
        ...found(bytes, unlikely, encoding),
        ...found(bytes.subarray(1), unlikely, encoding).map(moved),
      ]),
    ];
  };
}

/** A text of bytes, one a character, as everything that it may be read as. */
export function readingsOf(text: string): Pick<Piece, 'bytes' | 'sort' | 'wide'>[] {
  const seen = text.replace(TAGS, (_, name = '') => (WITHIN_A_WORD.test(name) ? '' : ' '));
  const plain = resolvedOf(text);
  const said = [text, ...plain, ...(seen === text ? [] : [seen, ...resolvedOf(seen)])];
  const guessed = [text, ...plain].flatMap((one) => [...base64In(one), ...hexIn(one)]);
  return [
    ...said.map(
      (one) => ({ bytes: Buffer.from(one, 'latin1'), sort: 'text', wide: false }) as const,
    ),
    ...guessed.map((bytes) => ({ bytes, sort: 'guessed', wide: true }) as const),
  ];
}

const TAGS = /<!--[\s\S]*?-->|<\/?([a-zA-Z][\w:.-]*)(?:[^>"']|"[^"]*"|'[^']*')*>|<[!?][^>]*>/g;
const WITHIN_A_WORD =
  /^(a|abbr|b|bdi|bdo|cite|code|del|dfn|em|font|i|ins|kbd|mark|q|s|samp|small|span|strong|sub|sup|tspan|u|var|wbr)$/i;

const ESCAPES = new RegExp(
  [
    '&#(?<decimal>\\d{1,8});?',
    '&#x(?<entity>[\\da-f]{1,7});?',
    '&(?<name>[a-z]+);',
    '(?<pair>\\\\ud[89ab][\\da-f]{2}\\\\ud[c-f][\\da-f]{2})',
    '\\\\u(?<unit>[\\da-f]{4})',
    '\\\\u\\{(?<point>[\\da-f]{1,6})\\}',
    '\\\\x(?<byte>[\\da-f]{2})',
    '\\\\(?<octal>[1-3][0-7]{2}|0[4-7][0-7])',
    '\\\\(?<style>[\\da-f]{2,6})\\s?',
    '\\\\(?<space>[nrtbfv,;])',
    '(?:[%=]|(?<=/[^\\x00-\\x20()<>[\\]{}%"]{0,126})#)(?<percent>[\\da-f]{2})',
    '(?<soft>[\\\\=]\\r?\\n)',
  ].join('|'),
  'gi',
);
const NAMES: Readonly<Record<string, string>> = { amp: '&', shy: '\u00ad', nbsp: '\u00a0' };

/** A text as it reads once its escapes are resolved: once, twice, three times. */
function resolvedOf(text: string): string[] {
  const rounds: string[] = [];
  for (let last = text; rounds.length < 3; ) {
    const next = last.replace(ESCAPES, (whole, ...given) => said(given.at(-1)) ?? whole);
    if (next === last) break;
    rounds.push(next);
    last = next;
  }
  return rounds;
}

/** Bytes, one a character; null for what is no character. */
function said(escaped: Readonly<Record<string, string | undefined>>): string | null {
  const { decimal, entity, name, pair, unit, point, byte, octal, style, space, percent } = escaped;
  const utf8 = (text: string) => Buffer.from(text).toString('latin1');
  if (space !== undefined) return ' ';
  if (name !== undefined) return name in NAMES ? utf8(NAMES[name] as string) : null;
  const single = byte ?? percent;
  if (single !== undefined) return String.fromCharCode(Number.parseInt(single, 16));
  if (octal !== undefined) return String.fromCharCode(Number.parseInt(octal, 8));
  if (pair !== undefined) return utf8(JSON.parse(`"${pair.replaceAll('\\U', '\\u')}"`));
  const hex = entity ?? unit ?? point ?? style;
  if (hex === undefined && decimal === undefined) return utf8('\u00ad');
  const code = decimal === undefined ? Number.parseInt(hex as string, 16) : Number(decimal);
  const isOne = code > 0 && code <= 0x10ffff && !(code >= 0xd800 && code < 0xe000);
  return isOne ? utf8(String.fromCodePoint(code)) : null;
}

/** What runs of base64 say, from each of four signs on. */
function base64In(text: string): Uint8Array[] {
  const runs = [...text.matchAll(/[\w+/-]+(?:\\?\r?\n[ \t]*[\w+/-]{4,})*/g)]
    .filter(([run]) => run.length >= 8)
    .map(([run]) => run.replace(/[^\w+/-]/g, ''));
  return [0, 1, 2, 3].map((from) =>
    together(
      runs.map((run) => run.slice(from)),
      'base64',
    ),
  );
}

/** What runs of hexadecimal digits say: pairs with something between, and digits in a row from the second on. */
function hexIn(text: string): Uint8Array[] {
  const pairs = text.matchAll(/(?:[\da-f]{2}(?:\\x|[,;]? ?0x|[ :,-]|\r?\n)?){6,}/gi);
  const solid = text.matchAll(/[\da-f]{13,}/gi);
  return [
    together(
      [...pairs].map(([run]) => run.replace(/0x|[^\da-f]/gi, '')),
      'hex',
    ),
    together(
      [...solid].map(([run]) => run.slice(1)),
      'hex',
    ),
  ];
}

/** Runs as one reading, with more between than may stand within a name. */
const together = (runs: readonly string[], encoding: 'base64' | 'hex'): Uint8Array =>
  Buffer.concat(
    runs.flatMap((run) => {
      const bytes = Buffer.from(run, encoding);
      return bytes.length === 0 ? [] : [bytes, Buffer.from('\n|\n|\n|\n|')];
    }),
  );
