/**
 * How a text of the library says where a number comes from: by a mark such as `[aaha2020]` in the same passage, which
 * leads to one of its sources, or by saying that it has none.
 */

/** A paragraph or an item of a list, as it is written. */
export interface WrittenPassage {
  /** 1-based line of the file on which it begins. */
  readonly line: number;
  readonly text: string;
}

/** Letters and digits in square brackets that are no link. */
const MARK = /\[([a-z][a-z0-9]*)\](?!\()/g;

/** The marks in a text, in order, each as often as it stands there. */
export const marksIn = (text: string): string[] =>
  [...text.matchAll(MARK)].map(([, mark]) => mark as string);

/** A text in its parts: those between marks, and the marks themselves. */
export function splitAtMarks(
  text: string,
): ({ readonly text: string } | { readonly mark: string })[] {
  return text
    .split(/(\[[a-z][a-z0-9]*\](?!\())/)
    .filter((part) => part !== '')
    .map((part) => (/^\[[a-z]/.test(part) ? { mark: part.slice(1, -1) } : { text: part }));
}

/** The passages of a Markdown text, headings and what stands in fences left out. */
export function writtenPassages(text: string, firstLine = 1): WrittenPassage[] {
  const passages: WrittenPassage[] = [];
  let open: { line: number; lines: string[] } | null = null;
  const close = () => {
    if (open) passages.push({ line: open.line, text: open.lines.join(' ') });
    open = null;
  };
  let fenced = false;
  text.split('\n').forEach((line, index) => {
    if (/^```/.test(line)) fenced = !fenced;
    const isText = !fenced && !/^(```|#{1,6} )/.test(line) && line.trim() !== '';
    if (!isText || /^\s*(?:[-*]|\d+\.) /.test(line)) close();
    if (!isText) return;
    open ??= { line: firstLine + index, lines: [] };
    open.lines.push(line.trim());
  });
  close();
  return passages;
}

/** Units, English and Spanish, that make a number one to act upon. */
const UNITS = [
  ...[
    'mg',
    'mcg',
    'µg',
    'g',
    'kg',
    'lb',
    'mL',
    'L',
    'mmHg',
    'kPa',
    'mV',
    'mm',
    'cm',
    '°C',
    '°F',
    '%',
    'Hz',
    'N',
  ],
  ...[
    'mm/s',
    'beats/min',
    'breaths/min',
    'latidos?/min',
    'resp\\./min',
    'beats?',
    'breaths?',
    'latidos?',
    'bpm',
  ],
  ...['s', 'min', 'h', 'hours?', 'horas?', 'minutes?', 'minutos?', 'seconds?', 'segundos?'],
  ...['days?', 'd[ií]as?', 'weeks?', 'semanas?', 'months?', 'meses', 'years?', 'años?'],
];

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const CLINICAL = new RegExp(
  String.raw`(?<![\p{L}\d.])${NUMBER}(?:\s?(?:-|–|to|a|and|y)\s?${NUMBER})?[\s\u00a0]?(?:${UNITS.join('|')})(?![\p{L}\d])`,
  'u',
);

/** Whether a text holds a number with a unit. */
export const hasClinicalNumber = (text: string): boolean => CLINICAL.test(text);

/**
 * Passages with a number that has a unit, of which neither a mark nor one of the phrases tells whence it comes.
 * @param phrases what the language says of numbers without a source
 */
export const unsourced = (
  passages: readonly WrittenPassage[],
  phrases: readonly string[],
): WrittenPassage[] =>
  passages.filter(
    ({ text }) =>
      hasClinicalNumber(text) &&
      marksIn(text).length === 0 &&
      !phrases.some((phrase) => text.toLowerCase().includes(phrase.toLowerCase())),
  );
