import { describe, expect, it } from 'vitest';
import { countedStretches, countedWithin } from '../../../src/signal/rate/counted.js';
import type { ReasonKey } from '../../../src/signal/reason.js';
import type { FoundRhythm } from '../../../src/signal/strip-analysis.js';
import { seconds } from '../../../src/units/brands.js';

const told = (
  name: FoundRhythm['name'],
  from: number,
  to: number,
  possible: FoundRhythm['possible'] = [],
  keys: readonly ReasonKey[] = [],
) => ({
  name,
  from: seconds(from),
  to: seconds(to),
  possible,
  because: keys.map((key) => ({ key }) as FoundRhythm['because'][number]),
});
const spans = [{ from: seconds(0), to: seconds(100), readable: true, why: '' as const }];
const counted = (...rhythms: Parameters<typeof countedStretches>[0]) =>
  countedStretches(rhythms, [], spans);

// Common practice: a rate is told of QRS complexes, and of nothing else that a counter may count.
describe('where a count is a rate', () => {
  it('is throughout neighbouring rhythms of beats, a rapid ventricular one too', () => {
    expect(counted(told('sinus rhythm', 0, 40), told('ventricular tachycardia', 40, 100))).toEqual([
      { from: 0, to: 100 },
    ]);
  });

  it('is not in fibrillation, at rest, or where T may have been counted', () => {
    expect(
      counted(
        told('ventricular fibrillation', 0, 10, [], ['trace moves']),
        told('asystole', 10, 20, [], ['no QRS', 'trace moves']),
        told('cannot be told', 20, 30, ['T or P waves counted as beats']),
        told('cannot be told', 30, 40, ['asystole', 'a lead that came off']),
        told('not readable', 40, 50),
      ),
    ).toEqual([]);
  });

  it('is where only the atria are in doubt, or the usual rate of the species is not known', () => {
    expect(counted(told('cannot be told', 0, 10, ['a sinus rhythm']))).toHaveLength(1);
    expect(counted(told('cannot be told', 0, 10, [], ['no rate range', 'no QRS limit']))).toEqual([
      { from: 0, to: 10 },
    ]);
    expect(counted(told('cannot be told', 0, 10, [], ['no rate range', 'steep QRS']))).toEqual([]);
    expect(counted(told('cannot be told', 0, 10))).toEqual([]);
  });

  it('holds a pause that was seen throughout, and none that shows a beat or was not seen', () => {
    const pause = [
      told('sinus rhythm', 0, 10),
      told('cannot be told', 10, 15, ['asystole', 'a lead that came off']),
      told('sinus rhythm', 15, 30),
    ];
    expect(countedStretches(pause, [], spans)).toEqual([{ from: 0, to: 30 }]);
    const apart = [
      { from: 0, to: 10 },
      { from: 15, to: 30 },
    ];
    expect(countedStretches(pause, [{ time: 12 }], spans)).toEqual(apart);
    const unseen = [
      { ...spans[0]!, to: seconds(11) },
      { from: seconds(11), to: seconds(12), readable: false, why: 'flat line' as const },
      { ...spans[0]!, from: seconds(12) },
    ];
    expect(countedStretches(pause, [], unseen)).toEqual(apart);
    const missed = pause.map((one, i) =>
      i === 1 ? told('cannot be told', 10, 15, [], ['QRS in pauses']) : one,
    );
    expect(countedStretches(missed, [], spans)).toEqual(apart);
    expect(countedStretches(pause.slice(0, 2), [], spans)).toEqual([{ from: 0, to: 10 }]);
  });

  it('is cut to a part of the strip', () => {
    const all = [
      { from: seconds(0), to: seconds(10) },
      { from: seconds(15), to: seconds(30) },
    ];
    expect(countedWithin(all, 5, 20)).toEqual([
      { from: 5, to: 10 },
      { from: 15, to: 20 },
    ]);
    expect(countedWithin(all, 10, 15)).toEqual([]);
  });
});
