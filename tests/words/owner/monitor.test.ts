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

  /** The strip of tucker, with early beats of the ventricles, and the even one of bramble: their minutes. */
  const two = (first: number | null, second: number | null, order = ['tucker', 'bramble']) => {
    const at = (minute: number | null) =>
      minute === null ? { value: null, why: '' } : { value: minute, how: 'recorded', from: [] };
    const strips = order.flatMap((name, index) =>
      factsOf(name).strips.map((strip) => ({ ...strip, begins: at(index === 0 ? first : second) })),
    );
    return { ...factsOf('tucker'), strips } as HomeCase;
  };

  it.each([
    [
      'en',
      /At first we counted \d+ heartbeats .* early .* 30 minutes later we counted \d+ .* even/,
    ],
    [
      'es',
      /Al principio contamos \d+ latidos .* antes de tiempo .* 30 minutos después contamos \d+/,
    ],
  ])('tells what each tracing showed, the first and the later one, %s', (tag, sentences) => {
    expect(told(two(10, 40), tag)).toMatch(sentences);
    // In the order of time, whatever the order of the record.
    expect(told(two(40, 10, ['bramble', 'tucker']), tag)).toMatch(sentences);
  });

  it('says of tracings without a time no order', () => {
    const text = told(two(10, null), 'en');
    expect(text).toMatch(/On one tracing we counted .* On another tracing we counted/);
    expect(text).not.toMatch(/first|later/);
  });

  it('says once what two tracings have in common, and which could not be judged', () => {
    const same = told(two(10, 40, ['bramble', 'bramble']), 'en');
    expect(same.split('began where it should')).toHaveLength(2);
    expect(same).toContain('The heart beat in the same way. At home it may differ.');
    const unread = two(10, 40);
    const [first, second] = unread.strips as [(typeof unread.strips)[0], (typeof unread.strips)[0]];
    const strips = [first, { ...second, analysis: { ...second.analysis, rate: null } }];
    expect(told({ ...unread, strips }, 'en')).toContain(
      '30 minutes later we could not judge the heart tracing.',
    );
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
