import { describe, expect, it } from 'vitest';
import { type PublicFacts, publicFacts } from '../../../src/privacy/public-facts.js';
import { withoutCount } from '../../../src/signal/breath/link.js';
import { TOLERANCE } from '../../../src/signal/measures/measure.js';
import { reason } from '../../../src/signal/reason.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import { breathPart } from '../../../src/words/teaching/breath.js';
import { drugsPart } from '../../../src/words/teaching/events.js';
import { intervalsPart } from '../../../src/words/teaching/intervals.js';
import type { CaseFigures } from '../../../src/words/teaching/learner-section.js';
import { rhythmPart } from '../../../src/words/teaching/rhythm.js';
import { ratePart } from '../../../src/words/teaching/strip.js';
import type { StripSection } from '../../../src/words/teaching/strip-section.js';
import { demo, OPEN_VEIL } from '../../facts/demo.js';

function told(name: string, part: StripSection, tag = 'en'): string {
  const facts = demo.cases.find((one) => one.name === name)?.facts;
  const open = facts && publicFacts(facts, OPEN_VEIL);
  const language = demo.content.languages.get(tag) as Language;
  if (!open) throw new Error(`no published case ${name}`);
  return textOf(part(open, language, {} as CaseFigures, 0));
}

describe('the measures of a strip', () => {
  it('bear one name each: the steep part of the average is not the QRS from onset to end', () => {
    expect(told('saffron', rhythmPart)).toMatch(/steep part of the averaged QRS 0\.0\d\d s/);
    expect(told('saffron', rhythmPart)).not.toMatch(/(?<!averaged )QRS 0\.0\d\d s/);
    expect(told('saffron', intervalsPart)).toContain('QRS duration, onset to end');
  });

  it('tell the tolerance by which a value over its limit is within', () => {
    const table = told('saffron', intervalsPart);
    expect(table).toContain(`by more than ${TOLERANCE.s} s`);
    // Nothing is judged for a rabbit, so nothing is tolerated.
    expect(told('clover', intervalsPart)).not.toContain('by more than');
  });

  it('tell intervals as finely as the rates beside them', () => {
    for (const { name } of demo.cases) {
      const found = told(name, ratePart).matchAll(/(\d+) ms \((\d+) beats\/min\)/g);
      const pairs = [...found].map(([, interval, rate]) => [Number(interval), Number(rate)]);
      expect(pairs).toHaveLength(2);
      for (const [interval, rate] of pairs as [number, number][]) {
        // Half a millisecond of rounding, and half a beat.
        expect(Math.abs(60_000 / interval - rate)).toBeLessThanOrEqual(
          0.5 + 60_000 / (interval - 0.5) - 60_000 / interval,
        );
      }
    }
  });
});

it('folds the reasons behind those that decide', () => {
  const text = told('bramble', rhythmPart);
  expect(text).toContain('What decides: a P wave stands before 49 of 49 beats; from P to QRS');
  expect(text).toContain('All 22 measurements behind this');
});

it('calls no QRS narrow where that proof is missing', () => {
  const facts = demo.cases.find(({ name }) => name === 'bramble')?.facts;
  const open = facts && publicFacts(facts, OPEN_VEIL);
  const [strip] = open?.strips ?? [];
  const because = [
    reason('narrow QRS', { width: 0.09, limit: 0.07 }),
    reason('P before beats', { withP: 3, asked: 49, limit: 0.9 }),
    reason('equal PR', { pr: 0.1, share: 0.2, limit: 0.9 }),
    reason('steep QRS', { steepness: 9, limit: 20 }),
  ];
  const withheld = { ...strip?.analysis.rhythms[0], confidence: null, possible: [], because };
  const analysis = { ...strip?.analysis, rhythms: [withheld] };
  const withIt = { ...open, strips: [{ ...strip, analysis }] } as unknown as PublicFacts;
  const english = demo.content.languages.get('en') as Language;
  const text = textOf(rhythmPart(withIt, english, {} as CaseFigures, 0));
  expect(text).toContain(
    'First of all: steep part of the averaged QRS 0.090 s (narrow to 0.070 s)',
  );
  expect(text).not.toContain('the QRS is narrow');
});

it('does not count the strip itself among the copies that followed the breath', () => {
  expect(told('juniper', breathPart)).toContain('None of 999 shuffled copies');
  expect(told('juniper', breathPart)).toContain('p = 0.001');
  expect(told('juniper', breathPart, 'es')).toContain('Ninguna de 999 copias');
});

it('says of no breath that it does or does not lead beats that could not be counted', () => {
  const facts = demo.cases.find(({ name }) => name === 'tucker')?.facts;
  const open = facts && publicFacts(facts, OPEN_VEIL);
  const [strip] = open?.strips ?? [];
  const { breath, beats } = (strip as PublicFacts['strips'][number]).analysis;
  const analysis = { ...strip?.analysis, rate: null, breath: withoutCount(breath, beats) };
  const uncounted = { ...open, strips: [{ ...strip, analysis }] } as unknown as PublicFacts;
  const english = demo.content.languages.get('en') as Language;
  const text = textOf(breathPart(uncounted, english, {} as CaseFigures, 0));
  expect(text).toContain('It cannot be told whether the beats go with the breath');
  expect(text).toContain('the beats could not be counted');
  expect(told('tucker', breathPart)).toContain('No link was found between beat and breath.');
});

it('tells a fluid in mL/kg', () => {
  expect(told('saffron', drugsPart)).toContain('10 mL/kg');
  expect(told('saffron', drugsPart)).not.toContain('not stated');
});
