import { describe, expect, it } from 'vitest';
import { unfitting } from '../../src/care/dose-check/fitting-route.js';
import type { PlannedMedicine } from '../../src/care/dose-check/planned-medicine.js';
import { withoutFood } from '../../src/care/dose-check/with-food.js';

const medicine = (more: Partial<PlannedMedicine>): PlannedMedicine => ({
  drug: 'alphafen',
  purpose: 'pain and swelling',
  route: 'by mouth',
  food: 'either',
  give: { value: 1, unit: 'mL', written: '1 mL' },
  perKilogram: 1,
  perKilogramDay: 1,
  hours: 24,
  lastGiven: null,
  asNeededUntil: null,
  doses: [],
  ...more,
});

describe('an NSAID by mouth', () => {
  it.each(['either', 'without food'] as const)('raises a question where it is given %s', (food) => {
    expect(withoutFood('NSAID', 'dog', medicine({ food }))).toMatchObject([
      { kind: 'an NSAID without food', field: 'food', weight: 'warn' },
    ]);
  });

  it.each([
    ['with food', 'NSAID', 'dog', { food: 'with food' }],
    ['of a rabbit, which always eats', 'NSAID', 'rabbit', {}],
    ['that food keeps out', 'NSAID', 'cat', { drug: 'Robenacoxib' }],
    ['not swallowed', 'NSAID', 'dog', { route: 'in the right eye' }],
    ['of another class', 'antibiotic', 'dog', {}],
    ['of no known class', null, 'dog', {}],
  ] as const)('raises none %s', (_, known, species, more) => {
    expect(withoutFood(known, species, medicine(more))).toEqual([]);
  });
});

describe('a way in that hardly fits', () => {
  it.each([
    [
      'food and an eye',
      { route: 'in the right eye', food: 'with food' },
      /in the right eye, with food/,
    ],
    [
      'food and the skin',
      { route: 'on the skin', food: 'without food' },
      /on the skin, without food/,
    ],
    [
      'food and an injection',
      { route: 'under the skin', food: 'with food' },
      /under the skin, with food/,
    ],
    ['an ear for the stomach', { route: 'in the left ear', purpose: 'stomach' }, /for "stomach"/],
    [
      'half a milliliter in an eye',
      { route: 'in each eye', give: { value: 0.5, unit: 'mL', written: '0.5 mL' } },
      /0.5 mL of alphafen in each eye/,
    ],
    [
      'three milliliters in an ear',
      { route: 'in each ear', give: { value: 3, unit: 'mL', written: '3 mL' } },
      /3 mL of alphafen in each ear/,
    ],
  ] as const)('raises a question: %s', (_, more, found) => {
    expect(unfitting(medicine(more as Partial<PlannedMedicine>))).toMatchObject([
      {
        kind: 'a route that hardly fits the medicine',
        field: 'route',
        found: expect.stringMatching(found),
      },
    ]);
  });

  it.each([
    ['a liquid by mouth', {}],
    ['a milliliter in an ear', { route: 'in the left ear', purpose: 'ear' }],
    [
      'drops in an eye',
      {
        route: 'in the left eye',
        purpose: 'eye surface',
        give: { value: 1, unit: 'drop', written: '1 drop' },
      },
    ],
    ['an ointment on the skin', { route: 'on the skin' }],
    ['insulin with a meal', { route: 'under the skin', purpose: 'diabetes', food: 'with food' }],
  ] as const)('raises none: %s', (_, more) => {
    expect(unfitting(medicine(more as Partial<PlannedMedicine>))).toEqual([]);
  });
});
