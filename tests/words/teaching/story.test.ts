import { describe, expect, it } from 'vitest';
import { type PublicFacts, publicFacts } from '../../../src/privacy/public-facts.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import type { CaseFigures } from '../../../src/words/teaching/learner-section.js';
import { pressurePart } from '../../../src/words/teaching/pressure.js';
import { shownAgainst } from '../../../src/words/teaching/shown-rate.js';
import { sourcesPart } from '../../../src/words/teaching/sources.js';
import { changesPart, storyPart } from '../../../src/words/teaching/story.js';
import { ratePart } from '../../../src/words/teaching/strip.js';
import { ofEachStrip } from '../../../src/words/teaching/strip-section.js';
import { demo, OPEN_VEIL } from '../../facts/demo.js';

const none = {} as CaseFigures;
const english = demo.content.languages.get('en') as Language;

function factsOf(name: string): PublicFacts {
  const facts = demo.cases.find((one) => one.name === name)?.facts;
  const told = facts && publicFacts(facts, OPEN_VEIL);
  if (!told) throw new Error(`no published case ${name}`);
  return told;
}

describe('the story', () => {
  it('names each stretch with its minutes, and what the record leaves out', () => {
    const facts = factsOf('saffron');
    const text = textOf(storyPart(facts, english, none));
    expect(text).toContain('preparation 0 to 21; operation 21 to 56; bleeding 37 to 42');
    expect(text).not.toContain('does not tell the time');
    const lacking = { ...facts, story: { ...facts.story, untimed: ['extubation' as const] } };
    expect(textOf(storyPart(lacking, english, none))).toContain('the time of: extubation.');
  });
});

describe('what changed', () => {
  it('says why a fall mattered only where the readings show one', () => {
    const tie = textOf(changesPart(factsOf('saffron'), english, none));
    expect(tie).toContain('71, then 46 (one reading)');
    expect(tie).toContain('only 7 min after bleeding controlled');
    expect(tie).toContain('less blood came back to the heart');
    const calm = textOf(changesPart(factsOf('bramble'), english, none));
    expect(calm).not.toContain('less blood came back');
    expect(calm).toMatch(/times the count: about double\)\. Who treats a doubled number/);
  });

  /** Saffron with another change at the incision: one turn alone. */
  const incision = (
    rate: number,
    others: readonly string[] = [],
    drugs: readonly object[] = [],
  ) => {
    const facts = factsOf('saffron');
    const side = (median: number) => ({ median, count: 2 });
    const change = (difference: number) => ({
      before: side(80),
      after: side(80 + difference),
      difference,
    });
    const steps = ['first incision', ...others].map((what, event) => ({ event, what }));
    const turn = {
      steps,
      minute: 21,
      pressure: change(20),
      rate: change(rate),
      soonAfter: null,
      verdict: 'rose',
    };
    const changed = {
      ...facts,
      anesthesia: { ...facts.anesthesia, drugs },
      story: { ...facts.story, turns: [turn] },
    } as unknown as PublicFacts;
    return (language = english) => textOf(changesPart(changed, language, none));
  };
  const spanish = demo.content.languages.get('es') as Language;

  it('takes a rise with the incision for an answer of the body only if the rate did not fall', () => {
    expect(incision(10)()).toContain('pain relief may have been light');
    expect(incision(10)(spanish)).toContain('pudo ser ligera');
    for (const tag of [english, spanish]) {
      expect(incision(-10)(tag)).not.toMatch(/may have been light|pudo ser ligera/);
    }
    expect(incision(-10)()).toContain(
      'rose with the first incision while the shown heart rate fell',
    );
    expect(incision(-10)()).not.toContain('says that the body answered');
  });

  it('names the drugs that were given in the minutes compared, and none of another time', () => {
    const drug = (name: string, minute: number) => ({ drug: name, minute });
    const told = incision(10, [], [drug('atropine', 19), drug('meloxicam', 60)]);
    expect(told()).toContain('compared (minute in brackets): atropine (19). A drug can move');
    expect(told(spanish)).toContain('atropine (19). Un fármaco');
  });

  it('lays a change on no one of two steps in the same minute, and tells it once', () => {
    const told = incision(10, ['bleeding']);
    expect(told()).toContain('after first incision and bleeding, all in minute 21: which of them');
    expect(told()).not.toContain('may have been light');
    expect(told()).toContain('1, 2 first incision and bleeding, minute 21');
    expect(told(spanish)).toContain('todo en el minuto 21');
  });

  it('says what cannot be told where no mean pressure was measured', () => {
    const text = textOf(changesPart(factsOf('clover'), english, none));
    expect(text).toContain('holds no mean pressure');
    expect(text).toContain('no reading on one side');
    expect(text).not.toMatch(/\b(fell|rose) by/);
  });
});

it('tells minutes and area of low pressure beside its episodes', () => {
  const text = textOf(pressurePart(factsOf('saffron'), english, none));
  expect(text).toContain('10 min and 105 mmHg·min under 60 mmHg');
  expect(text).toContain('not low yet at minute 35 and no longer low at minute 50');
  expect(text).toContain('more than 5 min (if it did not rise between two low readings)');
  expect(text).toContain('less than 15 min');
  expect(textOf(pressurePart(factsOf('bramble'), english, none))).not.toContain('mmHg·min');
});

describe('the displayed rate', () => {
  it('is told with its own minute, and no number that was never displayed', () => {
    const text = textOf(ofEachStrip(ratePart)(factsOf('saffron'), english, none));
    expect(text).toContain('While the strip ran, the monitor displayed no rate');
    expect(text).toMatch(/150 beats\/min at minute 35 .*190 beats\/min at minute 40/);
    expect(text).toContain('do not agree with each other');
  });

  it.each([
    [
      [80, 80],
      [12.02, 12.98],
      '80 beats/min from minute 12 to minute 13 (0.89 times the count: agrees)',
    ],
    [[80, 80], [12.02, 12.4], '80 beats/min at minute 12 (0.89 times the count: agrees)'],
    [
      [80, 84],
      [12, 20],
      '80 to 84 beats/min from minute 12 to minute 20 (0.89 to 0.93 times the count: agrees)',
    ],
  ])(
    'of %j at minutes %j is told once where its ends look alike',
    ([lowest, highest], [from, to], said) => {
      const ratios = [lowest! / 90, highest! / 90] as const;
      const shown = [{ from, to, lowest, highest, ratios, relation: 'agrees', count: 2 }];
      expect(shownAgainst({ during: true, alike: true, shown } as never, english.learner)).toBe(
        said,
      );
    },
  );

  it('that agrees is not said to judge the circulation, and other beats ask for the pulse', () => {
    for (const { name } of demo.cases) {
      const facts = factsOf(name);
      const text = textOf(
        [changesPart, ofEachStrip(ratePart)].flatMap((part) => part(facts, english, none)),
      );
      expect(text).not.toContain('judge the circulation');
      expect(text.includes('Feel the pulse')).toBe(name === 'tucker');
    }
  });
});

it('tells systolic pressure where nothing else was measured, and for which species its limit is', () => {
  const text = textOf(pressurePart(factsOf('clover'), english, none));
  expect(text).toContain('Only systolic pressure was measured: 13 readings, 94 to 114 mmHg');
  expect(text).toContain('No systolic reading was under 90 mmHg');
  expect(text).toContain('published for dogs and cats');
  expect(text).not.toContain('no blood pressure');
});

describe('the sources', () => {
  it.each(demo.cases.map(({ name }) => name))('stand once each: %s', (name) => {
    const lines = textOf(sourcesPart(factsOf(name), english, none)).split('\n');
    expect(lines.length).toBeGreaterThan(4);
    expect(new Set(lines).size).toBe(lines.length);
  });

  it('are those that the page uses', () => {
    expect(textOf(sourcesPart(factsOf('saffron'), english, none))).toContain('AAHA');
    // A rabbit: no mean pressure and no ranges.
    const rabbit = textOf(sourcesPart(factsOf('clover'), english, none));
    expect(rabbit).not.toContain('limit of mean pressure');
    expect(rabbit).toContain('limit of systolic pressure');
    expect(rabbit).not.toContain('Table 2.4');
    for (const { behaviour } of factsOf('clover').wound?.layers ?? []) {
      expect(rabbit).toContain(behaviour.source);
    }
  });
});
