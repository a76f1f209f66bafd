/**
 * Solves Ax = b for one symmetric, positive definite A (n x n, row by row) and any number of b, by
 * Cholesky's factors. Cost n^3/6 once and n^2 each time; meant for tens of unknowns.
 */
export function solver(a: Float64Array, n: number): (b: Float64Array) => Float64Array {
  const factor = cholesky(a, n);
  return (b) => solved(factor, n, b);
}

function solved(factor: Float64Array, n: number, b: Float64Array): Float64Array {
  const x = b.slice();
  for (let i = 0; i < n; i += 1) {
    for (let k = 0; k < i; k += 1) x[i]! -= factor[i * n + k]! * x[k]!;
    x[i]! /= factor[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    for (let k = i + 1; k < n; k += 1) x[i]! -= factor[k * n + i]! * x[k]!;
    x[i]! /= factor[i * n + i]!;
  }
  return x;
}

/** L, lower, with LL' = A. */
function cholesky(a: Float64Array, n: number): Float64Array {
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = a[i * n + j]!;
      for (let k = 0; k < j; k += 1) sum -= l[i * n + k]! * l[j * n + k]!;
      l[i * n + j] = i === j ? Math.sqrt(sum) : sum / l[j * n + j]!;
    }
  }
  return l;
}
