import { inks } from '../../draw/inks.js';
import type { Run } from '../../words/handout.js';
import type { Face } from '../fonts.js';
import type { Place, Press } from './press.js';
import { type Tag, tag, within } from './tags.js';
import type { Voice } from './type-scale.js';
import { advanceOf } from './typefaces.js';
import { writeText } from './written-text.js';

/** A stretch of a word, or of a line, in one face. */
interface Part {
  readonly text: string;
  readonly face: Face;
  readonly href: string | null;
  /** Thousandths of its size. */
  readonly advance: number;
}

/** A word with the space after it; it may change face within itself. */
interface Word {
  readonly parts: readonly Part[];
  readonly space: Space;
}

/** The space that ends a word or a line. */
interface Space {
  readonly face: Face;
  /** Thousandths of its size; 0 where there is none. */
  readonly advance: number;
}

/** A stretch of one line in one face. */
interface Fragment extends Part {
  readonly size: number;
  readonly width: number;
}

interface Line {
  readonly fragments: readonly Fragment[];
  readonly width: number;
}

/** Text broken into lines for one width. */
export interface Passage {
  readonly lines: readonly Line[];
  readonly voice: Voice;
  /** Points. */
  readonly width: number;
  readonly height: number;
}

type Align = 'start' | 'middle' | 'end';

/** Passages that have been set already, by their runs: few of each, in other voices or widths. */
const settled = new WeakMap<readonly Run[], Passage[]>();

/**
 * Breaks running text into lines; a word wider than the line is broken where it must be. A document that is laid out again
 * with other air between its blocks takes the lines as they are.
 */
export function setPassage(runs: readonly Run[], voice: Voice, width: number): Passage {
  const known = madeIn(settled, runs, () => []);
  for (const passage of known) {
    if (passage.width === width && soundsLike(passage.voice, voice)) return passage;
  }
  const passage = broken(runs, voice, width);
  known.push(passage);
  return passage;
}

const soundsLike = (one: Voice, other: Voice): boolean =>
  one === other ||
  (one.size === other.size &&
    one.leading === other.leading &&
    one.colour === other.colour &&
    one.bold === other.bold &&
    one.tabular === other.tabular);

interface Kept<K, V> {
  get(key: K): V | undefined;
  set(key: K, value: V): unknown;
}

function madeIn<K, V>(kept: Kept<K, V>, key: K, make: () => V): V {
  const before = kept.get(key);
  if (before) return before;
  const made = make();
  kept.set(key, made);
  return made;
}

function broken(runs: readonly Run[], voice: Voice, width: number): Passage {
  const lines: Line[] = [];
  let line: Part[] = [];
  let used = 0;
  const flush = () => {
    lines.push(finishedWhenAsked(line, voice));
    line = [];
    used = 0;
  };
  for (const { parts, space } of wordsOf(runs, voice)) {
    const wide = parts.reduce((sum, part) => sum + widthOf(part, voice), 0);
    const inked = wide - widthOf(space, voice);
    if (used > 0 && used + inked > width + 0.01) flush();
    if (inked <= width + 0.01) {
      line.push(...parts);
      used += wide;
      continue;
    }
    for (const letter of lettersOf(parts, voice)) {
      const one = widthOf(letter, voice);
      if (used > 0 && used + one > width) flush();
      line.push(letter);
      used += one;
    }
  }
  if (line.length > 0 || lines.length === 0) flush();
  return { lines, voice, width, height: lines.length * voice.leading };
}

/** The same lines, the earlier ones a little shorter where that keeps a lone word off the last line of a title. */
export function setWithoutWidow(runs: readonly Run[], voice: Voice, width: number): Passage {
  const full = setPassage(runs, voice, width);
  for (let share = 1; share >= 0.7; share -= 0.03) {
    const tighter = setPassage(runs, voice, width * share);
    if (tighter.lines.length > full.lines.length) break;
    if ((tighter.lines.at(-1)?.width ?? 0) > width * 0.25) return { ...tighter, width };
  }
  return full;
}

/** A space after a number and before a word is no place to break: a dose stays with its unit, a day with its month. Nor is a slash: `mg/mL` is one unit. */
const breaks = /(?<=(?<!\p{N}) )|(?<=\p{N} )(?![\p{L}%°¼½¾])|(?<=\p{L}[-–—])(?=\p{L})/u;

/** An address goes on in the next line after a slash alone: a hyphen at the end of a line could be its own or not. */
const breaksOfAddress = /(?<= )|(?<=[^/]\/)(?=[^/])/u;

/** The words of runs, measured once for every size and width: a sheet is set a dozen times before one setting is printed. */
const worded = new WeakMap<readonly Run[], Map<string, readonly Word[]>>();

const wordsOf = (runs: readonly Run[], voice: Voice): readonly Word[] =>
  madeIn(
    madeIn(worded, runs, () => new Map<string, readonly Word[]>()),
    `${voice.bold} ${voice.tabular}`,
    () => partedIntoWords(runs, voice),
  );

function partedIntoWords(runs: readonly Run[], voice: Voice): Word[] {
  const words: Word[] = [];
  let parts: Part[] = [];
  const end = () => {
    words.push({ parts, space: spaceAfter(parts, voice) });
    parts = [];
  };
  for (const run of runs) {
    for (const part of partsOf(run, voice)) {
      parts.push(part);
      if ((run.href ? /[ /]$/ : /[ \-–—]$/).test(part.text)) end();
    }
  }
  if (parts.length > 0) end();
  return words;
}

/** The parts of texts, as most sentences stand in the documents of many cases. */
const parted = new Map<string, readonly Part[]>();
/** Texts whose parts are kept before all are let go. Not a clinical number. */
const MOST_KEPT = 10_000;

function partsOf(run: Run, voice: Voice): readonly Part[] {
  const face = faceOf(run, voice);
  const href = run.href ?? null;
  const key = `${face} ${voice.tabular} ${href}\n${run.text}`;
  if (parted.size >= MOST_KEPT) parted.clear();
  return madeIn(parted, key, () =>
    // Only plain white space is folded and broken at; a no-break space stays.
    run.text
      .replace(/[ \t\r\n]+/g, ' ')
      .split(href === null ? breaks : breaksOfAddress)
      .filter((part) => part !== '')
      .map((part) => measured(part, face, voice, href)),
  );
}

function faceOf(run: Run, voice: Voice): Face {
  const strong = run.strong === true || voice.bold === true;
  if (run.code) return strong ? 'monoBold' : 'mono';
  if (run.emphasis) return strong ? 'boldItalic' : 'italic';
  return strong ? 'bold' : 'regular';
}

const measured = (text: string, face: Face, voice: Voice, href: string | null): Part => ({
  text,
  face,
  href,
  advance: advanceOf(face, text, voice.tabular === true),
});

const sizeOf = (face: Face, { size }: Voice) =>
  face === 'mono' || face === 'monoBold' ? size * 0.94 : size;

/** Points. */
const widthOf = ({ face, advance }: Space, voice: Voice) => advance * (sizeOf(face, voice) / 1000);

function spaceAfter(parts: readonly Part[], voice: Voice): Space {
  const last = parts.at(-1);
  if (!last?.text.endsWith(' ')) return { face: 'regular', advance: 0 };
  const inked = measured(last.text.trimEnd(), last.face, voice, null);
  return { face: last.face, advance: last.advance - inked.advance };
}

const lettersOf = (parts: readonly Part[], voice: Voice) =>
  parts.flatMap(({ text, face, href }) =>
    [...text].map((letter) => measured(letter, face, voice, href)),
  );

/** Most settings are weighed by their height alone, for which no line need be finished. */
function finishedWhenAsked(parts: readonly Part[], voice: Voice): Line {
  let made: Line | null = null;
  const line = () => {
    made ??= finished(parts, voice);
    return made;
  };
  return {
    get fragments() {
      return line().fragments;
    },
    get width() {
      return line().width;
    },
  };
}

/** Joins neighbours of one face, so that kerning and copied text run through. */
function finished(parts: readonly Part[], voice: Voice): Line {
  const joined: Part[] = [];
  for (let from = 0; from < parts.length; ) {
    const { face, href } = parts[from] as Part;
    let to = from;
    let text = '';
    while (to < parts.length && parts[to]?.face === face && parts[to]?.href === href) {
      text += parts[to++]?.text;
    }
    joined.push(to === from + 1 ? (parts[from] as Part) : measured(text, face, voice, href));
    from = to;
  }
  const fragments = joined.map((part): Fragment => {
    const size = sizeOf(part.face, voice);
    return { ...part, size, width: part.advance * (size / 1000) };
  });
  const width = fragments.reduce((sum, part) => sum + part.width, 0);
  return { fragments, width: width - widthOf(spaceAfter(joined, voice), voice) };
}

interface Printing {
  readonly place: Place;
  readonly align?: Align;
  /** Lines `from` up to, not including, `to`. */
  readonly from?: number;
  readonly to?: number;
  /** The structure node that the text belongs to and its type; without one the caller has marked it as an artifact. */
  readonly into?: { readonly tag: Tag; readonly type: string };
}

/** Prints lines of a passage, and each link as a link of its own. */
export function printPassage(press: Press, passage: Passage, how: Printing): void {
  const { place, align = 'start', from = 0, to = passage.lines.length, into } = how;
  const inked = passage.lines.slice(from, to).flatMap((line, i) => {
    const slack = passage.width - line.width;
    let x = place.x + (align === 'end' ? slack : align === 'middle' ? slack / 2 : 0);
    const y = place.y + i * passage.voice.leading + baseline(passage.voice);
    return line.fragments.map((fragment) => {
      const at = { fragment, x, y };
      x += fragment.width;
      return at;
    });
  });
  for (const stretch of stretchesByLink(inked)) {
    const href = stretch[0]?.fragment.href ?? null;
    const write = () => {
      for (const { fragment, x, y } of stretch) ink(press, passage.voice, fragment, x, y);
    };
    if (!into) write();
    else if (href === null) within(press, into.tag, into.type, write);
    else {
      const link = tag(press, into.tag, 'Link');
      within(press, link, 'Link', write);
      for (const { fragment, x, y } of stretch) {
        const options = { structParent: link(), Contents: pdfString(fragment.text) };
        const { leading, size } = passage.voice;
        press.doc.link(x, y - size, fragment.width, leading, href, options);
      }
      // Ended on its own page: the printer notes the page of a link when the node is closed.
      link().end();
    }
  }
}

/** pdfkit writes a string primitive as a name; only a String object becomes text. */
const pdfString = (text: string) => Object(text) as string;

interface Inked {
  readonly fragment: Fragment;
  readonly x: number;
  readonly y: number;
}

function stretchesByLink(all: readonly Inked[]): Inked[][] {
  const stretches: Inked[][] = [];
  for (const one of all) {
    const last = stretches.at(-1);
    if (last?.[0] && last[0].fragment.href === one.fragment.href) last.push(one);
    else stretches.push([one]);
  }
  return stretches;
}

function ink(press: Press, voice: Voice, fragment: Fragment, x: number, y: number): void {
  const { doc } = press;
  const { text, face, size } = fragment;
  const colour = fragment.href === null ? voice.colour : inks.accent;
  const tabular = voice.tabular === true;
  writeText(doc, text, { face, size, colour, tabular, x, y });
  if (fragment.href === null) return;
  const width = fragment.width - (text.endsWith(' ') ? size * 0.25 : 0);
  doc.lineWidth(0.5).strokeColor(colour);
  doc
    .moveTo(x, y + 1.8)
    .lineTo(x + width, y + 1.8)
    .stroke();
}

/** From the top of a line to its baseline; ascent 0.984 and descent 0.316 of the size are the face's own. */
export const baseline = ({ size, leading }: Voice) => (leading - 1.3 * size) / 2 + 0.984 * size;
