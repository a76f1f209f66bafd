import { describe, expect, it } from 'vitest';
import type { Language } from '../../../src/words/language.js';
import { calendarEntries } from '../../../src/words/owner/calendar-entries.js';
import { demo } from '../../facts/demo.js';
import { type Change, problemsOf } from '../../record/sample.js';
import { builtFrom, factsOf, sheetOf } from './sheet-of.js';

const LAYERS: Change = [
  `    - { layer: under the skin, material: poliglecaprone 25, size: 3-0, pattern: simple continuous }
    - { layer: skin, material: nylon, size: 4-0, pattern: simple interrupted }`,
  '    - { layer: gum, material: poliglecaprone 25, size: 5-0, pattern: simple interrupted }',
];
const TEETH: Change[] = [['procedure: skin lump removal', 'procedure: tooth removal'], LAYERS];
const NO_COLLAR: Change = ['  collar: 12 days\n', ''];
const OPEN: Change[] = [
  [LAYERS[0], ''],
  ['  layers:\n', ''],
  ['healing: edge to edge', 'healing: left open'],
  ['edge gap: 0 mm', 'edge gap: 5 mm'],
];
const BARE: Change = ['  tension: none', '  bandage: no\n  tension: none'];

describe('a wound in the mouth', () => {
  const text = sheetOf('en', [], ...TEETH);

  it('is guarded by soft food until the gums are closed, 14 days after surgery (common practice)', () => {
    expect(text).toContain('Give Thimble only soft food until Monday, March 23.');
    expect(text).toContain('No chews, bones, hard toys or tug games until Mon, Mar 23.');
    expect(text).toContain('Only soft food until Mon, Mar 23.');
    expect(sheetOf('es', [], ...TEETH)).toContain(
      'solo comida blanda hasta el lunes, 23 de marzo.',
    );
  });

  it('is not told of as skin: no bath, no line on it, no shaved fur, no stitch to look for', () => {
    expect(text).not.toMatch(
      /bath|a thin line|shaved\. It grows|Look at the wound|A stitch is loose/,
    );
    expect(text).toContain('The stitches dissolve. They need not come out.');
    expect(text).toContain('A hole opens in the gums, or the breath smells worse.');
  });

  it('has the last day of soft food in the calendar, beside its sheet', () => {
    const entries = calendarEntries(
      factsOf([], ...TEETH),
      demo.content.languages.get('en') as Language,
    );
    expect(entries.map(({ title }) => title)).toContain(
      'DRAFT: Thimble: Last day of soft food alone',
    );
  });

  it('has the days of the record where it states them', () => {
    const week: Change = ['  collar: 12 days', '  soft food: 7 days'];
    expect(sheetOf('en', [], ...TEETH, week)).toContain('only soft food until Monday, March 16.');
  });

  it('takes no hay from a rabbit', () => {
    const rabbit: Change = ['species: dog', 'species: rabbit'];
    const purpose: Change = ['for: pain and swelling', 'for: pain and swelling, rabbit'];
    const told = sheetOf('en', [], ...TEETH, rabbit, purpose);
    expect(told).not.toContain('soft food');
    expect(told).toContain('must keep eating');
    expect(told).toContain('No hard treats until we say so.');
  });
});

describe('a wound that is left open', () => {
  it('has a bandage to watch where it goes home under one', () => {
    const text = sheetOf('en', [], ...OPEN);
    expect(text).toContain('Keep the bandage clean and dry.');
    expect(text).toContain('Toes under a bandage are cold');
  });

  it('has none to look for where the record says that there is none', () => {
    const text = sheetOf('en', [], ...OPEN, BARE, NO_COLLAR);
    expect(text).toContain('The wound is open and has no bandage, on purpose.');
    expect(text.replace('no bandage, on purpose', '').replace('without a bandage', '')).not.toMatch(
      /bandage/,
    );
    expect(sheetOf('es', [], ...OPEN, BARE, NO_COLLAR)).toContain('sin venda a propósito');
  });

  it('seals by itself where it is a small cut, and is not asked about more than that (common practice)', () => {
    const week: Change[] = [
      ['  collar: 12 days', '  collar: 7 days'],
      ['  rest: 2 weeks', '  rest: 7 days'],
      ['  rechecks:\n    - { what: wound check, after: 3 days }\n', ''],
    ];
    const about = (...changes: Change[]) =>
      factsOf([], ...OPEN, ...week, ...changes)
        .warnings.filter(({ kind }) => kind === 'an open wound that is left alone too soon')
        .map(({ field }) => field);
    expect(about(BARE)).toEqual([]);
    expect(about(BARE, ['  rest: 7 days', '  rest: 6 days'])).toEqual(['home.rest']);
    expect(about()).toEqual(['home.collar', 'home.rest', 'home.rechecks']);
    expect(about(BARE, ['edge gap: 5 mm', 'edge gap: 25 mm'])).toHaveLength(3);
    const text = sheetOf('en', [], ...OPEN, ...week, BARE);
    expect(text).toContain('It closes by itself in about 7 to 10 days.');
    expect(text).toContain('No baths before Fri, Mar 20. No swimming until we say so.');
  });

  it('keeps the collar first where there is one', () => {
    expect(sheetOf('en', [], ...OPEN, BARE)).toContain('Keep the collar on Thimble');
  });
});

it('a male is not told to be sterile at once: sperm is left for weeks (common practice)', () => {
  const text = sheetOf(
    'en',
    [],
    ['procedure: skin lump removal', 'procedure: castration'],
    ['sex: female', 'sex: male'],
    ['neutered: yes', 'neutered: no'],
  );
  expect(text).toContain('can still father young for some weeks');
  expect(text).toContain('keep Thimble away from females');
});

it('a patient that goes home days after the anesthesia is not told to be wobbly from it', () => {
  const later: Change = ['discharge: 15:00', 'discharge: 2026-03-11 15:00'];
  const first: Change = ['last given: 08:40', 'last given: 2026-03-11 08:40'];
  expect(sheetOf('en', [])).toContain('Thimble may be sleepy and wobbly until the next day.');
  const text = sheetOf('en', [], later, first);
  expect(text).not.toContain('sleepy and wobbly until');
  expect(text).toContain('Keep stairs, beds and other pets away.');
});

it('midnight is said to be the start of its day', () => {
  const nights: Change = ['last given: 08:40', 'last given: 12:00'];
  const said = 'Midnight is the start of the day that it stands with.';
  expect(sheetOf('en', [], nights)).toContain(said);
  expect(sheetOf('en', [])).not.toContain(said);
});

it.each([
  ['every: 12 h', 'every: 12 h'],
  ['every: 12 h', 'at: [09:00, 21:00]'],
])('one dose alone has no rhythm: %s to %s', (from, to) => {
  const once: Change[] = [
    ['doses: 6', 'doses: 1'],
    [from, to],
  ];
  expect(sheetOf('en', [], ...once)).toContain('One dose in all.');
  expect(sheetOf('en', [], ...once)).not.toMatch(/Every 12|Twice a day/);
  expect(sheetOf('es', [], ...once)).toContain('Una sola dosis.');
});

describe('drops for an eye', () => {
  const bottle: Change[] = [
    ['strength: 50 mg/tablet', 'strength: 3 mg/mL'],
    ['give: 1/2 tablet', 'give: 1 drop'],
    ['route: by mouth', 'route: in the eye'],
    ['dispensed: 3 tablets', 'dispensed: 5 mL'],
  ];

  it('are told as drops, with what the label says and no syringe', () => {
    const text = sheetOf('en', [], ...bottle);
    expect(text).toContain('Give 1 drop in the eye');
    expect(text).toContain('3 mg/mL on the label');
    expect(text).toContain('though some will be left over');
    expect(text).not.toContain('syringe');
  });

  it('hold a twentieth of a mL each (common practice)', () => {
    const [medicine] = factsOf([], ...bottle).home.medicines;
    expect(medicine?.milligram.value).toBeCloseTo(0.15, 12);
    expect(medicine?.needed.value).toBe(6);
  });

  it('may run out: 100 drops are in a bottle of 5 mL', () => {
    const long: Change = ['doses: 6', 'doses: 101'];
    expect(problemsOf(builtFrom([], ...bottle, long))).toMatchObject([
      { kind: 'too little dispensed', expected: 'at least 101 drops for 101 doses of 1 drop' },
    ]);
    expect(builtFrom([], ...bottle, ['doses: 6', 'doses: 100']).ok).toBe(true);
  });
});

it('a clinic without an address has no stop in its place', () => {
  const address: Change = ['address: [9 Larkspur Row, Fernley Gate]\n', ''];
  expect(sheetOf('en', [])).toContain('9 Larkspur Row, Fernley Gate. Call 555 0100.');
  expect(sheetOf('en', [address])).toMatch(/Clinic(?=Call 555 0100\. At night 555 0199\.)/);
});
