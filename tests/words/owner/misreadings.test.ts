import { describe, expect, it } from 'vitest';
import type { HomeCase } from '../../../src/facts/case-facts.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { demo } from '../../facts/demo.js';

const languageOf = (tag: string) => demo.content.languages.get(tag) as Language;
const english = languageOf('en');
const of = (name: string) => demo.cases.find((one) => one.name === name)?.facts as HomeCase;
const sheet = (facts: HomeCase, language = english) => ownerSheet(facts, language, []);
const words = (facts: HomeCase, language = english) =>
  textOf(sheet(facts, language).blocks).replaceAll('\u00a0', ' ');

describe('a sheet that is read in a hurry', () => {
  it('never lets a rabbit be bathed, not even by a date from which it may', () => {
    const text = words(of('clover'));
    expect(text).toContain('Never bathe a rabbit. No damp cloth on the wound before Sat, May 16.');
    expect(text).not.toMatch(/baths?\b(?! a rabbit)/i);
  });

  it('calls as urgently for a rabbit that does not eat at its head as among its warning signs', () => {
    expect(words(of('clover'))).toContain(
      'has not eaten 12 hours after coming home, call now, day or night.',
    );
  });

  it('does not call an owner for an open wound that was left open', () => {
    expect(words(of('pumpernickel'))).toContain(
      'Steady bleeding: call now. Else: call the same day.',
    );
    expect(words(of('pumpernickel'))).not.toContain('Gaping');
    expect(words(of('juniper'))).toContain('Gaping or steady bleeding: call now.');
    expect(words(of('pumpernickel'), languageOf('es'))).toContain(
      'Si no para de sangrar, llame ya.',
    );
  });

  it('counts months where strands take months, and says that deeper ones take longer', () => {
    // 91 to 119 days in the skin, 180 to 220 below it: src/care/materials.ts names the sources.
    expect(words(of('clover'))).toContain(
      'That takes about 3 to 4 months. Deeper ones take longer.',
    );
    const facts = of('clover');
    const skin = facts.wound.layers.filter(({ layer }) => layer === 'within the skin');
    const shallow = { ...facts, wound: { ...facts.wound, layers: skin } };
    expect(words(shallow)).not.toContain('Deeper');
  });

  it('says what is missing to judge a rhythm, not that the tracing was poor', () => {
    expect(words(of('clover'))).toContain('We have no normal values to judge the rhythm by.');
    expect(words(of('clover'))).not.toContain('could not judge part');
  });

  it('has the day of the week written out where its short form is a month', () => {
    expect(languageOf('es').clock.shortDay('2026-03-31').replaceAll('\u00a0', ' ')).toBe(
      'martes, 31 de mar',
    );
    expect(words(of('pumpernickel'), languageOf('es'))).toContain('Martes, 7 de abr');
    expect(english.clock.shortDay('2026-03-31').replaceAll('\u00a0', ' ')).toBe('Tue, Mar 31');
  });

  it('has in large type on its first page when to call now', () => {
    const facts = of('clover');
    const large = {
      ...facts,
      identity: { ...facts.identity, owner: { ...facts.identity.owner, largeType: true } },
    };
    const first = sheet(large).blocks.flatMap((block) =>
      block.kind === 'callout' ? [block.title] : [],
    );
    expect(first.slice(0, 2)).toEqual([
      english.owner.text('call.title'),
      english.owner.text('first.title'),
    ]);
  });
});
