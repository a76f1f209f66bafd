import { describe, expect, it } from 'vitest';
import type { Change } from '../../record/sample.js';
import { sheetOf } from './sheet-of.js';

const CAT: Change[] = [['species: dog', 'species: cat']];
const OPENING: Change[] = [
  ...CAT,
  ['sex: female', 'sex: male'],
  ['procedure: skin lump removal', 'procedure: new opening for urine'],
];
const meal = (from: string, what: string): Change => [
  '  rest: 2 weeks\n',
  `  rest: 2 weeks\n  food: { from: ${from}, how much: half a meal, what: ${what} }\n`,
];

describe('an opening that is meant to stay', () => {
  it('is not told to close, to be dry, or to let nothing out', () => {
    const english = sheetOf('en', [], ...OPENING);
    expect(english).toContain('The opening itself must stay open.');
    expect(english).toContain('Then off, if the rim has healed.');
    expect(english).toContain('The rim of the opening comes away from the skin.');
    for (const said of [
      'a flat, dry, pale pink line',
      'if the wound is closed',
      'something comes out of it',
      'The edges gape',
    ]) {
      expect(english, said).not.toContain(said);
      expect(sheetOf('en', [], ...CAT), said).toContain(said);
    }
    const spanish = sheetOf('es', [], ...OPENING);
    expect(spanish).toContain('La salida misma debe quedar abierta.');
    expect(spanish).toContain('Luego, quítelo si el borde sanó.');
    expect(spanish).not.toContain('sale algo de ella');
  });

  it('has each urgent sign once: a cat that strains is told by the signs of a cat', () => {
    const english = sheetOf('en', [], ...OPENING);
    expect(english).toContain('strains to pass urine and nothing comes.');
    expect(english).toContain('A big, hard or sore belly.');
    expect(english).not.toContain('Straining with no urine');
    expect(sheetOf('es', [], ...OPENING)).not.toContain('Hace fuerza y no sale orina');
  });
});

it('a ferret is told once that it may be weak', () => {
  const ferret: Change[] = [
    ['species: dog', 'species: ferret'],
    ['weight: 12.5 kg', 'weight: 0.9 kg'],
    ['procedure: skin lump removal', 'procedure: adrenal gland removal'],
  ];
  expect(sheetOf('en', [], ...ferret)).toContain('is weak, drools or will not eat.');
  expect(sheetOf('en', [], ...ferret)).not.toContain('very weak or does not wake');
  expect(sheetOf('en', [], ...CAT, ferret[2] as Change)).toContain('very weak or does not wake');
});

describe('food', () => {
  it('is not put down while the owner is to ask when, or before its hour', () => {
    const later = 'Put water and the litter box close by.';
    expect(sheetOf('en', [], ...CAT)).toContain(later);
    expect(sheetOf('en', [], ...CAT, meal('18:30', 'usual food'))).toContain(later);
    expect(sheetOf('en', [], ...CAT, meal('15:00', 'usual food'))).toContain(
      'Put food, water and the litter box close by.',
    );
    expect(sheetOf('es', [], ...CAT)).toContain('Ponga cerca agua y arenero.');
  });

  it('of the first meal says nothing of the next ones', () => {
    const soft = meal('18:30', 'soft food');
    expect(sheetOf('en', [], soft)).toContain('Ask us when to go back to the usual food.');
    expect(sheetOf('en', [], soft)).not.toContain('until we say otherwise');
    expect(sheetOf('es', [], soft)).toContain('Pregúntenos cuándo volver a la comida de siempre.');
  });
});

describe('calm', () => {
  const resting = (full: string): Change[] => [
    ['  collar: 12 days\n', ''],
    ['rest: 2 weeks', `rest: 2 weeks${full}`],
  ];
  it.each([
    ['', 'can open the wound, so wait with them until we say so.', 'until we say so.'],
    [
      '\n  full activity after: 3 weeks',
      'can open the wound, so wait with them until Monday, March 30.',
      'before Mon, Mar 30.',
    ],
    ['\n  full activity after: 15 days', 'can open the wound.', 'before Tue, Mar 24.'],
  ])('has one end in the main message and in short%s', (full, main, short) => {
    const english = sheetOf('en', [], ...resting(full));
    expect(english).toContain('Keep Thimble calm until Monday, March 23.');
    expect(english).toContain(main);
    expect(english).toContain(`Rest heals: no running, no jumping ${short}`);
  });
});

it('the patient is named once among the reasons for slower healing', () => {
  const slow: Change[] = [
    ['tension: none', 'tension: none\n  slower because: [steroids, endocrine disease]'],
  ];
  expect(sheetOf('en', [], ...slow)).toContain(
    'because Thimble takes a steroid medicine and has a hormone disease.',
  );
  expect(sheetOf('es', [], ...slow)).toContain(
    'porque Thimble toma un esteroide y tiene una enfermedad de las hormonas.',
  );
  const tight: Change[] = [
    ['tension: none', 'tension: high\n  slower because: [endocrine disease]'],
  ];
  expect(sheetOf('en', [], ...tight)).toContain(
    'because Thimble has a hormone disease and the skin is tight.',
  );
});

it('a step says each day once, and Spanish says baths and swims alike', () => {
  expect(sheetOf('en', [], ...CAT)).not.toMatch(/From [^:]*: From/);
  expect(sheetOf('en', [], ...CAT)).toContain('A bath is fine from Sun, Mar 22.');
  expect(sheetOf('es', [])).toContain('No bañar antes del domingo, 22 de mar ni nadar hasta');
  const twice: Change = ['every: 12 h', 'at: [09:00, 21:00]'];
  expect(sheetOf('es', [], twice)).toContain('Dos veces al día');
  expect(sheetOf('es', [])).not.toContain('día abierto');
});

it.each([
  ['dog', 'Big belly'],
  ['cat', 'No urine'],
])('the most urgent sign of a %s stands in short', (species, said) => {
  const text = sheetOf('en', [], ['species: dog', `species: ${species}`]);
  expect(text).toContain(`${said}, hard breathing, steady bleeding: call now.`);
});
