import type { Blood } from './blood.js';
import { DELAYS } from './blood.js';
import type { ElectricalRecord, Phase } from './phase.js';

export type Words = Readonly<Record<string, string>>;

/** A sentence in pieces, some of them strong. */
export type Pieces = readonly { readonly text: string; readonly strong: boolean }[];

/** What happens, in words. */
export function sayPhase(words: Words, { step, wave, beat }: Phase): Pieces {
  return pieces(words[`heart.step.${step}`], {
    from: wave ? thousandths(wave.onset) : '',
    to: wave ? thousandths(wave.end) : '',
    beat: beat === null ? '' : String(beat + 1),
  });
}

export const sayBlood = (words: Words, { step }: Blood): Pieces =>
  pieces(words[`heart.flow.${step}`], {});

/** That it was not measured, and by how much the mechanical event is drawn later. */
export const sayDelays = (words: Words): Pieces =>
  pieces(
    words['heart.flow.note'],
    Object.fromEntries(
      Object.entries(DELAYS).map(([name, seconds]) => [name, String(Math.round(1000 * seconds))]),
    ),
  );

/** Where on the strip this is. */
export function sayPlace(
  words: Words,
  { beats }: ElectricalRecord,
  { beat }: Phase,
  second: number,
): string {
  const at = { second: thousandths(second) };
  return beat === null
    ? fill(words['heart.at'], at)
    : fill(words['heart.atBeat'], { ...at, beat: String(beat + 1), beats: String(beats.length) });
}

export const fill = (message: string | undefined, values: Words): string =>
  (message ?? '').replace(/\{(\w+)\}/g, (_, name: string) => values[name] ?? '');

/** `**strong**` parts a sentence; values are put in afterwards, so that none of them is taken for a sign. */
const pieces = (message: string | undefined, values: Words): Pieces =>
  (message ?? '')
    .split('**')
    .map((text, i) => ({ text: fill(text, values), strong: i % 2 === 1 }))
    .filter(({ text }) => text !== '');

const thousandths = (seconds: number): string => seconds.toFixed(3);
