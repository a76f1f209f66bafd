import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MATERIAL_BEHAVIOUR } from '../../src/care/materials.js';
import {
  healingEstimate,
  heldBy,
  LATE_REMOVAL_DAYS,
  outlookOf,
  REMOVAL_DAYS,
  skinStitches,
  type Wound,
} from '../../src/care/wound.js';
import { MATERIALS } from '../../src/record/vocabulary.js';

const wound = (change: Partial<Wound>): Wound => ({
  healing: 'edge to edge',
  edgeGap: 0,
  tension: 'none',
  slowerBecause: [],
  layers: [{ layer: 'skin', material: 'nylon' }],
  ...change,
});

describe('the skin stitches', () => {
  it('come out 10 to 14 days after surgery (common practice)', () => {
    expect(skinStitches(wound({}))).toEqual({ kind: 'remove', from: 10, to: 14, later: [] });
  });

  it.each<[string, Partial<Wound>, string[]]>([
    ['under high tension', { tension: 'high' }, ['high tension']],
    ['where the wound heals slowly', { slowerBecause: ['steroids'] }, ['steroids']],
    [
      'for every reason that there is',
      { tension: 'high', slowerBecause: ['old age', 'movement'] },
      ['high tension', 'old age', 'movement'],
    ],
  ])('come out later %s', (_, change, later) => {
    expect(skinStitches(wound(change))).toEqual({ kind: 'remove', ...LATE_REMOVAL_DAYS, later });
  });

  it('come out later where joined edges do not meet (common practice)', () => {
    expect(skinStitches(wound({ edgeGap: 2 }))).toMatchObject({
      ...LATE_REMOVAL_DAYS,
      later: ['edges apart'],
    });
  });

  it.each([
    [[], false],
    [[{ layer: 'within the skin', material: 'poliglecaprone 25' }], true],
  ] as const)('shed as a film of adhesive, over %j', (under, overStitches) => {
    const layers = [...under, { layer: 'skin', material: 'tissue adhesive' }] as const;
    expect(skinStitches(wound({ layers }))).toEqual({
      kind: 'shed',
      from: 5,
      to: 10,
      overStitches,
    });
  });

  it('come out where there are stitches beside the adhesive', () => {
    const layers = [
      { layer: 'skin', material: 'nylon' },
      { layer: 'skin', material: 'tissue adhesive' },
    ] as const;
    expect(skinStitches(wound({ layers })).kind).toBe('remove');
  });

  it('are not put off for some tension', () => {
    expect(skinStitches(wound({ tension: 'some' }))).toMatchObject(REMOVAL_DAYS);
  });

  it('never come out earlier for a reason to come out later', () => {
    expect(LATE_REMOVAL_DAYS.from).toBeGreaterThanOrEqual(REMOVAL_DAYS.from);
    expect(LATE_REMOVAL_DAYS.to).toBeGreaterThan(REMOVAL_DAYS.to);
  });

  it('come out where any strand in the skin stays', () => {
    const layers = [
      { layer: 'within the skin', material: 'poliglecaprone 25' },
      { layer: 'skin', material: 'stainless steel staples' },
    ] as const;
    expect(skinStitches(wound({ layers })).kind).toBe('remove');
  });

  it('dissolve unseen within the skin', () => {
    const layers = [{ layer: 'within the skin', material: 'poliglecaprone 25' }] as const;
    expect(skinStitches(wound({ layers }))).toEqual({
      kind: 'dissolve',
      absorbedBy: [91, 119],
      hidden: true,
    });
  });

  it('are those that the owner sees, where there are others within the skin', () => {
    const layers = [
      { layer: 'within the skin', material: 'poliglecaprone 25' },
      { layer: 'skin', material: 'polyglactin 910' },
    ] as const;
    const seen = { kind: 'dissolve', absorbedBy: [56, 70], hidden: false };
    expect(skinStitches(wound({ layers }))).toEqual(seen);
    expect(skinStitches(wound({ layers: [...layers].reverse() }))).toEqual(seen);
  });

  it('are none where no layer reaches the skin', () => {
    expect(skinStitches(wound({ layers: [] }))).toEqual({ kind: 'none' });
    const layers = [{ layer: 'body wall', material: 'nylon' }] as const;
    expect(skinStitches(wound({ layers }))).toEqual({ kind: 'none' });
  });
});

describe('the time that the skin takes', () => {
  it('is that of the stitches where the edges meet', () => {
    expect(healingEstimate(wound({}))).toEqual({ by: 'joined edges', from: 10, to: 14, later: [] });
  });

  it('follows the distance of the edges of an open wound', () => {
    const open = (edgeGap: number) => healingEstimate(wound({ healing: 'left open', edgeGap }));
    // 18 mm at 0.8 and at 0.6 mm a day.
    expect(open(18)).toEqual({ by: 'filling in', from: 23, to: 30, later: [] });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 100 }),
        fc.integer({ min: 2, max: 100 }),
        (gap, more) => {
          expect(open(gap + more).from).toBeGreaterThan(open(gap).from);
          expect(open(gap + more).to).toBeGreaterThan(open(gap).to);
          expect(open(gap).to).toBeGreaterThanOrEqual(open(gap).from);
        },
      ),
    );
  });

  it('says why an open wound may take longer', () => {
    const slow = wound({ healing: 'left open', edgeGap: 5, slowerBecause: ['contamination'] });
    expect(healingEstimate(slow).later).toEqual(['contamination']);
  });
});

describe('what holds a layer', () => {
  it.each([
    ['bladder', 'polydioxanone', { kind: 'while the strand lasts', halfOn: 28, lessBy: 56 }],
    ['body wall', 'polyglactin 910', { kind: 'while the strand lasts', halfOn: 21, lessBy: 28 }],
    [
      'within the skin',
      'polyglytone 6211',
      { kind: 'while the strand lasts', halfOn: null, lessBy: 10 },
    ],
    ['body wall', 'polypropylene', { kind: 'for good' }],
    ['within the skin', 'polypropylene', { kind: 'until removed' }],
    ['skin', 'stainless steel staples', { kind: 'until removed' }],
    ['skin', 'tissue adhesive', { kind: 'until it sheds', from: 5, to: 10 }],
  ] as const)('%s of %s', (layer, material, hold) => {
    expect(heldBy({ layer, material })).toEqual(hold);
  });
});

describe.each(MATERIALS)('the strand %s', (material) => {
  const behaviour = MATERIAL_BEHAVIOUR[material];

  it('names where its figures were read', () => {
    expect(behaviour.source).toMatch(
      /^(common practice|from memory, unverified|supplier's sheet|.*(chapter|\d{4}))/i,
    );
  });

  it('never grows stronger with time', () => {
    for (const [index, { day, left }] of behaviour.strength.entries()) {
      const before = behaviour.strength[index - 1];
      expect(left[0]).toBeLessThanOrEqual(left[1]);
      expect(left[0]).toBeGreaterThanOrEqual(0);
      expect(left[1]).toBeLessThanOrEqual(before?.left[1] ?? 100);
      expect(day).toBeGreaterThan(before?.day ?? 0);
    }
  });

  it('is absorbed after it has lost its strength, if it is absorbed at all', () => {
    if (!behaviour.absorbable) {
      expect(behaviour).toMatchObject({ strength: [], absorbedBy: null });
      return;
    }
    const [from, to] = behaviour.absorbedBy ?? [0, 0];
    expect(from).toBeLessThanOrEqual(to);
    expect(to).toBeGreaterThan(behaviour.strength.at(-1)?.day ?? 0);
  });

  it('is what a layer made of it is told to be', () => {
    expect(outlookOf([{ layer: 'skin', material }])).toEqual([
      { layer: 'skin', material, behaviour, hold: heldBy({ layer: 'skin', material }) },
    ]);
  });
});
