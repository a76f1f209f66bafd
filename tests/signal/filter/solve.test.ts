import fc from 'fast-check';
import { expect, it } from 'vitest';
import { solver } from '../../../src/signal/filter/solve.js';

it('solves the worked example 4x + 2y = 2, 2x + 3y = 5 (by hand: x = -1/2, y = 2)', () => {
  const x = solver(Float64Array.of(4, 2, 2, 3), 2)(Float64Array.of(2, 5));
  expect(x[0]).toBeCloseTo(-0.5, 12);
  expect(x[1]).toBeCloseTo(2, 12);
});

it('gives back b where A is put to x', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 8 }).chain((n) =>
        fc.tuple(
          fc.constant(n),
          fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
            minLength: n * n,
            maxLength: n * n,
          }),
          fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: n, maxLength: n }),
        ),
      ),
      ([n, m, b]) => {
        // M M' + 1 is symmetric and positive definite, whatever M.
        const a = Float64Array.from({ length: n * n }, (_, k) => {
          const [i, j] = [Math.floor(k / n), k % n];
          let sum = i === j ? 1 : 0;
          for (let l = 0; l < n; l += 1) sum += m[i * n + l]! * m[j * n + l]!;
          return sum;
        });
        const x = solver(a, n)(Float64Array.from(b));
        for (let i = 0; i < n; i += 1) {
          let sum = 0;
          for (let j = 0; j < n; j += 1) sum += a[i * n + j]! * x[j]!;
          expect(sum).toBeCloseTo(b[i]!, 8);
        }
      },
    ),
  );
});
