import { describe, expect, it } from 'vitest';
import { USP_SIZES } from '../../src/record/suture-size.js';
import { accepted, caseWith, problemsOf } from './sample.js';

const FIRST = '{ layer: under the skin, material: poliglecaprone 25, size: 3-0,';
const sized = (size: string) =>
  caseWith([FIRST, FIRST.replace('size: 3-0', `size: ${JSON.stringify(size)}`)]);

describe('the table of USP sizes', () => {
  const sizes = Object.entries(USP_SIZES);

  it('gives as metric size the least diameter in tenths of a millimetre', () => {
    for (const [size, { metric, diameter }] of sizes) {
      expect(diameter[0] * 10, size).toBeCloseTo(metric, 9);
    }
  });

  it('grows from 10-0 to 6 without overlap; 3 and 4 are one class of the pharmacopoeia', () => {
    const order = ['10-0', '9-0', '8-0', '7-0', '6-0', '5-0', '4-0', '3-0', '2-0', '0'];
    const thick = ['1', '2', '3', '4', '5', '6'];
    const ranges = [...order, ...thick].map((size) => USP_SIZES[size as keyof typeof USP_SIZES]);
    expect(ranges).toHaveLength(sizes.length);
    for (const [index, { diameter }] of ranges.entries()) {
      expect(diameter[0]).toBeLessThan(diameter[1]);
      const before = ranges[index - 1];
      if (before && before.metric !== ranges[index]?.metric) {
        expect(diameter[0]).toBeGreaterThan(before.diameter[1]);
      }
    }
  });
});

describe('a size in the record', () => {
  it.each(Object.keys(USP_SIZES))('may be %s', (size) => {
    expect(accepted(sized(size)).value.closure.layers[0]?.size).toBe(size);
  });

  it.each(['0', '1', '6'])('may be %s without quotes', (size) => {
    const record = caseWith([FIRST, FIRST.replace('size: 3-0', `size: ${size}`)]);
    expect(accepted(record).value.closure.layers[0]?.size).toBe(size);
  });

  it.each([
    ['000', '3-0'],
    ['2.0', '2-0'],
    ['00', '2-0'],
    ['7', undefined],
  ])('%s without quotes is no other strand', (written, meant) => {
    const record = caseWith([FIRST, FIRST.replace('size: 3-0', `size: ${written}`)]);
    expect(problemsOf(record)).toMatchObject([
      {
        found: `"${written}"`,
        mend: meant ? `Did you mean "${meant}"?` : 'Use one of those listed.',
      },
    ]);
  });

  it.each([
    ['3/0', '3-0'],
    ['3.0', '3-0'],
    ['000', '3-0'],
    ['USP 2-0', '2-0'],
    ['#1', '1'],
    ['1-0', '0'],
  ])('"%s" is refused with the size that it may mean: %s', (written, meant) => {
    expect(problemsOf(sized(written))).toMatchObject([
      {
        file: 'case.yaml',
        field: 'closure.layers[0].size',
        found: `"${written}"`,
        mend: `Did you mean "${meant}"?`,
      },
    ]);
  });

  it.each(['medium', '0-0', '13-0', '9'])('"%s" is refused with the list', (size) => {
    const [problem] = problemsOf(sized(size));
    expect(problem).toMatchObject({ mend: 'Use one of those listed.' });
    expect(problem?.expected).toContain('10-0, 9-0, 8-0');
    expect(problem?.expected).toMatch(/2-0, 0, 1, 2, 3, 4, 5, 6$/);
  });
});
