import type { StripAnalysis } from '../../signal/strip-analysis.js';
import { type ToldBeat, toldBeats } from '../../signal/told-beats.js';
import type { Block, Cell } from '../handout.js';
import type { Language } from '../language.js';
import { plain } from '../markdown.js';

/** A page with more rows opens slowly on a telephone: five minutes at 120 beats/min. Not a clinical number. */
const MOST_ROWS = 600;

/** Each beat of a strip in a row, of a long strip the first; nothing where none was found. */
export function beatTable(
  analysis: StripAnalysis,
  fact: string,
  { learner }: Language,
): Extract<Block, { kind: 'table' }> | null {
  const beats = toldBeats(analysis);
  if (beats.length === 0) return null;
  const title = (name: string) => learner.text(`strip.beats.${name}`);
  const end = (name: string) => ({ title: title(name), align: 'end' as const, share: 10 });
  const start = (name: string, share: number) => ({
    title: title(name),
    align: 'start' as const,
    share,
  });
  const rows = beats.slice(0, MOST_ROWS);
  return {
    kind: 'table',
    caption:
      rows.length === beats.length
        ? title('caption')
        : learner.text('strip.beats.first', { rows: rows.length, beats: beats.length }),
    captionBy: 'heading',
    columns: [
      end('number'),
      end('time'),
      start('kind', 30),
      end('rr'),
      start('p', 14),
      end('pr'),
      end('qrs'),
      end('qt'),
    ],
    rows: rows.map((beat, index) => row(beat, `${fact}.beats.${index}`, learner)),
  };
}

function row(beat: ToldBeat, fact: string, learner: Language['learner']): Cell[] {
  const cell = (text: string, ...facts: readonly string[]): Cell => ({
    kind: 'said',
    said: [plain(text, ...facts)],
  });
  const milliseconds = (interval: number | null) =>
    cell(interval === null ? learner.text('strip.beats.withheld') : interval.toFixed(3));
  return [
    cell(String(beat.number), fact),
    cell(beat.time.toFixed(3)),
    cell(learner.text(`strip.kinds.${beat.kind}`)),
    typeof beat.rr === 'number'
      ? milliseconds(beat.rr)
      : cell(learner.text(`strip.beats.${beat.rr}`)),
    cell(learner.text(`strip.beats.${beat.p}`)),
    milliseconds(beat.pr),
    milliseconds(beat.qrs),
    milliseconds(beat.qt),
  ];
}
