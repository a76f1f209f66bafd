import { describe, expect, it } from 'vitest';
import type { HomeCase } from '../../../src/facts/case-facts.js';
import { readText } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import { inShort } from '../../../src/words/owner/in-short.js';
import { demo } from '../../facts/demo.js';

const english = demo.content.languages.get('en') as Language;
const of = (name: string) => demo.cases.find((one) => one.name === name)?.facts as HomeCase;

function points(facts: HomeCase): string[] {
  const [callout] = inShort(facts, english);
  if (callout?.kind !== 'callout') throw new Error('The sheet in short is a callout.');
  return callout.said.map((said) => readText(said).replaceAll('\u00a0', ' '));
}

describe('the sheet in short', () => {
  it('tells of medicines, rest, the day of each visit and when not to wait', () => {
    expect(points(of('bramble'))).toEqual([
      'Give 2 medicines. The last dose is on Sat, Mar 21.',
      'Rest heals: no running, no jumping before Tue, Apr 14.',
      'Fri, Mar 20: Visit to check the wound.',
      'Fri, Mar 27: Stitches come out. Please book this visit. Any open day up to Tue, Mar 31 will do.',
      'Thu, Apr 2: Visit to talk about what comes next.',
      'Big belly, hard breathing, steady bleeding: call now.',
    ]);
  });

  it('holds rest to the day from which the patient may run again, in every case of the demonstration', () => {
    for (const { name, facts } of demo.cases) {
      const { value } = facts.plan.fullFrom;
      const [rest] = points(facts).filter((point) => point.startsWith('Rest heals'));
      expect(rest, name).toMatch(
        value === null
          ? /until we say so\.$/
          : `before ${english.clock.shortDay(value)}.`.replaceAll('\u00a0', ' '),
      );
    }
  });

  it('tells days of one kind of visit together', () => {
    expect(points(of('pumpernickel'))).toContain(
      'Fri, Apr 3; Sat, Apr 4; Mon, Apr 6; Thu, Apr 9; Mon, Apr 13: Visit for a new bandage.',
    );
  });

  it('says that there is no medicine, and nothing of visits where there is none', () => {
    const facts = of('juniper');
    const home = { ...facts.home, medicines: [], rechecks: [] };
    const wound = { ...facts.wound, removal: null };
    expect(points({ ...facts, home, wound })).toEqual([
      'There are no medicines to give.',
      'Rest heals: no running, no jumping before Tue, Mar 31.',
      'Big belly, hard breathing, steady bleeding: call now.',
    ]);
  });
});
