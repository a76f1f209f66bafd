import { describe, expect, it } from 'vitest';
import type { HomeCase } from '../../../src/facts/case-facts.js';
import { seconds } from '../../../src/units/brands.js';
import { readText } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import { monitor } from '../../../src/words/owner/monitor.js';
import { demo } from '../../facts/demo.js';

const factsOf = (name: string) => demo.cases.find((one) => one.name === name)?.facts as HomeCase;

function told(facts: HomeCase, tag: string): string {
  const [block] = monitor(facts, demo.content.languages.get(tag) as Language);
  return block?.kind === 'callout' ? block.said.map(readText).join(' ') : '';
}

describe('what the monitor showed', () => {
  it.each([
    [
      'en',
      'Some heartbeats came early from the lower part of the heart. The other heartbeats were even and began where they should.',
    ],
    [
      'es',
      'Algunos latidos llegaron antes de tiempo desde la parte baja del corazón. Los demás latidos fueron regulares y empezaron donde deben.',
    ],
  ])('calls no heartbeat even that had early beats within it, %s', (tag, sentences) => {
    expect(told(factsOf('tucker'), tag)).toContain(sentences);
    expect(told(factsOf('tucker'), 'en')).not.toContain('The heartbeat was even');
    expect(told(factsOf('bramble'), 'en')).toContain(
      'The heartbeat was even and began where it should.',
    );
  });

  it('says so where a tracing was made and no heartbeat of it could be counted', () => {
    const tucker = factsOf('tucker');
    const uncounted = tucker.strips.map((strip) => ({
      ...strip,
      analysis: { ...strip.analysis, rate: null },
    }));
    const sentence = 'We could not judge the heart tracing.';
    expect(told({ ...tucker, strips: uncounted }, 'en')).toContain(sentence);
    expect(told({ ...tucker, strips: [] }, 'en')).not.toContain(sentence);
  });

  it('names a shorter stretch of another rhythm too', () => {
    const tucker = factsOf('tucker');
    const strips = tucker.strips.map((strip) => ({
      ...strip,
      analysis: {
        ...strip.analysis,
        rhythms: strip.analysis.rhythms.flatMap((rhythm) => [
          { ...rhythm, to: seconds(50), within: [] },
          { ...rhythm, from: seconds(50), within: [], name: 'ventricular tachycardia' as const },
        ]),
      },
    }));
    expect(told({ ...tucker, strips }, 'en')).toContain(
      'The lower part of the heart ran very fast. Ask your vet what this means. The other heartbeats were even',
    );
  });
});
