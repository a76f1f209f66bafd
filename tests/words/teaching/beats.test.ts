import { describe, expect, it } from 'vitest';
import type { StripAnalysis } from '../../../src/signal/strip-analysis.js';
import { seconds } from '../../../src/units/brands.js';
import type { Language } from '../../../src/words/language.js';
import { beatTable } from '../../../src/words/teaching/beats.js';
import { demo } from '../../facts/demo.js';

const english = demo.content.languages.get('en') as Language;

/** A strip on which so many beats were found, two a second. */
function analysisOf(beats: number): StripAnalysis {
  const { analysis } = demo.cases.find(({ name }) => name === 'bramble')!.facts.strips[0]!;
  const [beat] = analysis.beats;
  return {
    ...analysis,
    beats: Array.from({ length: beats }, (_, index) => ({ ...beat!, time: seconds(index / 2) })),
  };
}

describe('the table of beats', () => {
  it('has each beat of a strip in a row', () => {
    const table = beatTable(analysisOf(600), 'strips.0.analysis', english);
    expect(table?.rows).toHaveLength(600);
    expect(table?.caption).toBe('Every beat in a row');
  });

  it('of an hour has the first beats alone, and says so', () => {
    const table = beatTable(analysisOf(7200), 'strips.0.analysis', english);
    expect(table?.rows).toHaveLength(600);
    expect(table?.caption).toBe('The first 600 of 7200 beats, each in a row');
  });

  it('is left out where no beat was found', () => {
    expect(beatTable(analysisOf(0), 'strips.0.analysis', english)).toBeNull();
  });
});
