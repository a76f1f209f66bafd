import { inks } from '../../draw/inks.js';
import type { Run } from '../../words/handout.js';
import { demandGlyphs, type Face, faces } from '../fonts.js';
import type { Place, Press } from './press.js';
import { type Tag, tag, within } from './tags.js';
import type { Voice } from './type-scale.js';

/** Breaking text needs the faces alone, not the sheet. */
type Measure = Pick<Press, 'doc'>;

/** A stretch of one line in one face. */
interface Fragment {
  readonly text: string;
  readonly face: Face;
  readonly size: number;
  readonly width: number;
  readonly href: string | null;
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

export type Align = 'start' | 'middle' | 'end';

/** Passages that a document has set already, by their runs, and by how and how wide. */
const settled = new WeakMap<object, WeakMap<readonly Run[], Map<string, Passage>>>();

/**
 * Breaks running text into lines; a word wider than the line is broken where it must be. A document that is laid out again
 * with other air between its blocks takes the lines as they are.
 */
export function setPassage(
  press: Measure,
  runs: readonly Run[],
  voice: Voice,
  width: number,
): Passage {
  const { size, leading, colour, bold, tabular } = voice;
  const key = `${width} ${size} ${leading} ${colour} ${bold} ${tabular}`;
  const ofDocument = madeIn(settled, press.doc, () => new WeakMap());
  const ofRuns = madeIn(ofDocument, runs, () => new Map<string, Passage>());
  const before = ofRuns.get(key);
  if (before) return before;
  const passage = broken(press, runs, voice, width);
  ofRuns.set(key, passage);
  return passage;
}

function madeIn<K extends object, V>(kept: WeakMap<K, V>, key: K, make: () => V): V {
  const before = kept.get(key);
  if (before) return before;
  const made = make();
  kept.set(key, made);
  return made;
}

function broken(press: Measure, runs: readonly Run[], voice: Voice, width: number): Passage {
  const lines: Line[] = [];
  let line: Fragment[] = [];
  let used = 0;
  const flush = () => {
    lines.push(finished(press, line, voice));
    line = [];
    used = 0;
  };
  for (const word of wordsOf(press, runs, voice)) {
    const wide = word.reduce((sum, part) => sum + part.width, 0);
    const inked = wide - trailingSpace(press, word, voice);
    if (used > 0 && used + inked > width + 0.01) flush();
    if (inked <= width + 0.01) {
      line.push(...word);
      used += wide;
      continue;
    }
    for (const letter of lettersOf(press, word, voice)) {
      if (used > 0 && used + letter.width > width) flush();
      line.push(letter);
      used += letter.width;
    }
  }
  if (line.length > 0 || lines.length === 0) flush();
  return { lines, voice, width, height: lines.length * voice.leading };
}

/** The same lines, the earlier ones a little shorter where that keeps a lone word off the last line of a title. */
export function setWithoutWidow(
  press: Measure,
  runs: readonly Run[],
  voice: Voice,
  width: number,
): Passage {
  const full = setPassage(press, runs, voice, width);
  for (let share = 1; share >= 0.7; share -= 0.03) {
    const tighter = setPassage(press, runs, voice, width * share);
    if (tighter.lines.length > full.lines.length) break;
    if ((tighter.lines.at(-1)?.width ?? 0) > width * 0.25) return { ...tighter, width };
  }
  return full;
}

/** A space after a number and before a word is no place to break: a dose stays with its unit, a day with its month. Nor is a slash: `mg/mL` is one unit. */
const breaks = /(?<=(?<!\p{N}) )|(?<=\p{N} )(?![\p{L}%°¼½¾])|(?<=\p{L}[-–—])(?=\p{L})/u;

/** Words with the space after them; a word may change face within itself. */
function wordsOf(press: Measure, runs: readonly Run[], voice: Voice): Fragment[][] {
  const words: Fragment[][] = [];
  let word: Fragment[] = [];
  for (const run of runs) {
    // Only plain white space is folded and broken at; a no-break space stays.
    const text = run.text.replace(/[ \t\r\n]+/g, ' ');
    for (const part of text.split(breaks)) {
      if (part === '') continue;
      word.push(measured(press, part, faceOf(run, voice), voice, run.href ?? null));
      if (!/[ \-–—]$/.test(part)) continue;
      words.push(word);
      word = [];
    }
  }
  return word.length > 0 ? [...words, word] : words;
}

function faceOf(run: Run, voice: Voice): Face {
  const strong = run.strong === true || voice.bold === true;
  if (run.code) return strong ? 'monoBold' : 'mono';
  if (run.emphasis) return strong ? 'boldItalic' : 'italic';
  return strong ? 'bold' : 'regular';
}

function measured(
  press: Measure,
  text: string,
  face: Face,
  voice: Voice,
  href: string | null,
): Fragment {
  const size = face.startsWith('mono') ? voice.size * 0.94 : voice.size;
  // A face is numbered in the file when it is first asked for, so it is asked for even where the width is known.
  press.doc.font(faces[face]);
  return { text, face, size, width: advanceOf(press, text, face, voice) * (size / 1000), href };
}

/** Widths found so far in this process, in thousandths of the size, by face and kind of figures. */
const advances = new Map<string, Map<string, number>>();
/** Texts of one face whose widths are kept before all are let go. */
const MOST_KEPT = 50_000;

/** How wide a text is in a face that is the document's current one, in thousandths of the size. */
function advanceOf({ doc }: Measure, text: string, face: Face, voice: Voice): number {
  const kind = voice.tabular ? `${face}, tabular` : face;
  const kept = advances.get(kind) ?? new Map<string, number>();
  const before = kept.get(text);
  if (before !== undefined) return before;
  demandGlyphs(face, text);
  const advance = doc.fontSize(1000).widthOfString(text, features(voice));
  if (kept.size >= MOST_KEPT) kept.clear();
  advances.set(kind, kept.set(text, advance));
  return advance;
}

const features = (voice: Voice): PDFKit.Mixins.TextOptions =>
  voice.tabular ? { features: ['tnum', 'kern'] } : {};

function trailingSpace(press: Measure, word: readonly Fragment[], voice: Voice): number {
  const last = word.at(-1);
  if (!last?.text.endsWith(' ')) return 0;
  return last.width - measured(press, last.text.trimEnd(), last.face, voice, null).width;
}

const lettersOf = (press: Measure, word: readonly Fragment[], voice: Voice) =>
  word.flatMap(({ text, face, href }) =>
    [...text].map((letter) => measured(press, letter, face, voice, href)),
  );

/** Joins neighbours of one face, so that kerning and copied text run through. */
function finished(press: Measure, parts: readonly Fragment[], voice: Voice): Line {
  const fragments: Fragment[] = [];
  for (const part of parts) {
    const last = fragments.at(-1);
    if (last && last.face === part.face && last.href === part.href) {
      const text = last.text + part.text;
      fragments[fragments.length - 1] = measured(press, text, part.face, voice, part.href);
    } else {
      fragments.push(part);
    }
  }
  const width = fragments.reduce((sum, part) => sum + part.width, 0);
  return { fragments, width: width - trailingSpace(press, fragments, voice) };
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
  const colour = fragment.href === null ? voice.colour : inks.accent;
  doc.font(faces[fragment.face]).fontSize(fragment.size).fillColor(colour);
  doc.text(fragment.text, x, y, { lineBreak: false, baseline: 'alphabetic', ...features(voice) });
  if (fragment.href === null) return;
  const width = fragment.width - (fragment.text.endsWith(' ') ? fragment.size * 0.25 : 0);
  doc.lineWidth(0.5).strokeColor(colour);
  doc
    .moveTo(x, y + 1.8)
    .lineTo(x + width, y + 1.8)
    .stroke();
}

/** From the top of a line to its baseline; ascent 0.984 and descent 0.316 of the size are the face's own. */
export const baseline = ({ size, leading }: Voice) => (leading - 1.3 * size) / 2 + 0.984 * size;
