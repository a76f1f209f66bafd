import { expect, it } from 'vitest';
import { publicFacts } from '../../../src/privacy/public-facts.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import type { CaseFigures } from '../../../src/words/teaching/learner-section.js';
import { vitalsPart } from '../../../src/words/teaching/vitals.js';
import { demo, OPEN_VEIL } from '../../facts/demo.js';

const figures = {
  vitals: { kind: 'drawing', drawing: { width: 1, height: 1, marks: [] } },
} as unknown as CaseFigures;

it.each([
  ['en', /for (.+) in minute 85 does not/, /for (.+) from minute 85 to minute 90 does not/],
  ['es', /como (.+) en el minuto 85 no/, /como (.+) del minuto 85 al minuto 90 no/],
])(
  'tells in one sentence which channels were off the patient together, in %s',
  (tag, alone, both) => {
    const facts = demo.cases.find(({ name }) => name === 'saffron')?.facts;
    const shared = facts && publicFacts(facts, OPEN_VEIL);
    if (!shared) throw new Error('saffron is not published');
    const off = (minute: number) => ({ minute, value: 1, why: 'x' }) as never;
    const [first, second, third] = shared.vitals.channels;
    if (!first || !second || !third) throw new Error('saffron has fewer than three channels');
    const channels = [
      { ...first, apart: [off(85), off(90)] },
      { ...second, apart: [off(85)] },
      { ...third, apart: [off(85)] },
    ];
    const said = vitalsPart(
      { ...shared, vitals: { ...shared.vitals, channels } },
      demo.content.languages.get(tag) as Language,
      figures,
    ).flatMap((block) => (block.kind === 'paragraph' ? [block] : []));
    const told = said.map((block) => textOf([block])).filter((text) => /minut[eo] 85/.test(text));
    expect(told).toHaveLength(2);
    expect(told[0]).toMatch(both);
    const names = alone.exec(told[1] as string)?.[1];
    expect(names).toMatch(/ (and|y) /);
    expect(
      said.flatMap((block) => (block.said.facts.length > 1 ? [block.said.facts] : [])),
    ).toEqual([['vitals.channels.1.apart', 'vitals.channels.2.apart']]);
  },
);
