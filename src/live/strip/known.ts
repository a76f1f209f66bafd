import { toldBeats } from '../../signal/told-beats.js';
import type { LiveCase, LiveStrip } from '../contract.js';
import type { Say } from './say.js';
import type { Known, Stretch } from './scene.js';

/** Times to 0.1 ms that differ by less are one, s. Not a clinical number. */
const SAME = 0.000_05;

/** What the analysis knows of a strip, in the words of the page. */
export function knownOf({ analysis }: LiveStrip, { words, rhythms }: LiveCase, say: Say): Known {
  const told = toldBeats(analysis);
  return {
    beats: analysis.beats,
    told,
    short: told.map(({ kind }) => words[`strip.short.${kind}`] ?? ''),
    rhythms: analysis.rhythms.map(({ from, to, name, confidence }) => ({
      from,
      to,
      named: confidence !== null,
      words:
        confidence !== null
          ? (rhythms[name] ?? name)
          : say(name === 'not readable' ? 'unreadable' : 'untold'),
    })),
    events: analysis.rhythms.flatMap(({ within }) =>
      within.flatMap(({ from, to, name, beats }): Stretch[] => {
        const event = rhythms[name] ?? name;
        if (name === 'run of ventricular tachycardia') return [{ from, to, words: event }];
        if (name !== 'sinus pause') return [];
        // A pause is known by the beat that ends it.
        return beats.flatMap((end) => {
          const before = analysis.beats.findLast(({ time }) => time < end - SAME);
          return before ? [{ from: before.time, to: end, words: event }] : [];
        });
      }),
    ),
    unreadable: analysis.quality.spans
      .filter(({ readable }) => !readable)
      .map(({ from, to, why }) => ({ from, to, words: say(`why.${why || 'noise'}`) })),
  };
}

/** The rhythm at a moment, in words; null where none is named. */
export const rhythmAt = ({ rhythms }: Known, second: number): string | null =>
  rhythms.find(({ from, to, named }) => named && second >= from && second <= to)?.words ?? null;
