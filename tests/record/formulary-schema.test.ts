import { describe, expect, it } from 'vitest';
import { readFormulary } from '../../src/record/read-case.js';
import { accepted, type Change, changed, problemsOf } from './sample.js';

const TEXT = `about: invented for tests
drugs:
  - drug: alphafen
    ingredients: [alphafen]
    class: NSAID
    species:
      dog: { dose: 1-2 mg/kg, most a day: 4 mg/kg, every: 8-12 h }
      cat: { never: it harms cats }
    source: invented
  - drug: betamol
    ingredients: [betamol]
    class: other
    species: { cat: { dose: 20 mcg/kg, most a day: 60 mcg/kg, every: 8 h } }
    source: invented
`;
const read = (...changes: Change[]) => readFormulary(changed(TEXT, ...changes), 'formulary.yaml');

describe('a formulary', () => {
  it('gives doses in mg/kg and intervals in hours', () => {
    const [alphafen, betamol] = accepted(read()).value.drugs;
    expect(alphafen?.species).toEqual({
      dog: { dose: [1, 2], 'most a day': [4, 4], every: [8, 12] },
      cat: { never: 'it harms cats' },
    });
    expect(betamol?.species.cat).toEqual({
      dose: [0.02, 0.02],
      'most a day': [0.06, 0.06],
      every: [8, 8],
    });
  });

  it.each<[string, Change, string]>([
    ['a dose without a unit', ['dose: 1-2 mg/kg', 'dose: 1-2'], 'drugs[0].species.dog.dose'],
    ['a dose per animal', ['dose: 1-2 mg/kg', 'dose: 1-2 mg'], 'drugs[0].species.dog.dose'],
    ['a range the wrong way', ['dose: 1-2 mg/kg', 'dose: 2-1 mg/kg'], 'drugs[0].species.dog.dose'],
    ['no dose at all', ['dose: 1-2 mg/kg', 'dose: 0 mg/kg'], 'drugs[0].species.dog.dose'],
    ['a decimal comma', ['dose: 1-2 mg/kg', 'dose: "1,5 mg/kg"'], 'drugs[0].species.dog.dose'],
    [
      'a day below one dose',
      ['most a day: 4 mg/kg', 'most a day: 1.5 mg/kg'],
      'drugs[0].species.dog.most a day',
    ],
    ['an interval in days', ['every: 8-12 h', 'every: 1 day'], 'drugs[0].species.dog.every'],
    ['a dose and a ban', ['{ never:', '{ dose: 1 mg/kg, never:'], 'drugs[0].species.cat'],
    ['half a row', [', every: 8-12 h }', ' }'], 'drugs[0].species.dog'],
    ['a second row', ['drug: betamol', 'drug: Alphafen'], 'drugs[1].drug'],
    ['a species that no record knows', ['      dog:', '      dgo:'], 'drugs[0].species'],
    ['a class that is not known', ['class: NSAID', 'class: NSAIDs'], 'drugs[0].class'],
    [
      'no source',
      ['      cat: { never: it harms cats }\n    source: invented\n', ''],
      'drugs[0].source',
    ],
  ])('is refused with %s, in one place', (_, change, field) => {
    const problems = problemsOf(read(change));
    expect(problems).toHaveLength(1);
    expect(problems[0]?.file).toBe('formulary.yaml');
    expect(problems[0]?.line).toBeGreaterThan(1);
    expect(problems[0]?.field?.startsWith(field)).toBe(true);
    expect(problems[0]?.mend).toMatch(/^[A-Z].*[.?]$/);
  });
});
