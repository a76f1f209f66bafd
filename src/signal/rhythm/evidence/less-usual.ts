// What T does in each cycle is taken out by what it usually does, so that a P that moves against it is left.

/** A level, a tilt, the average, and the average moved a little, square to each other and of length 1. */
export function basisOf(usual: Float64Array): Float64Array[] {
  const last = usual.length - 1;
  const basis: Float64Array[] = [];
  for (const row of [
    usual.map(() => 1),
    usual.map((_, i) => i - last / 2),
    usual,
    usual.map((_, i) => usual[Math.min(last, i + 1)]! - usual[Math.max(0, i - 1)]!),
  ]) {
    const left = lessBasis(row.slice(), basis);
    const size = Math.sqrt(squaresOf(left));
    if (size > 1e-9) basis.push(left.map((value) => value / size));
  }
  return basis;
}

/** The row itself, less its part along the basis. */
export function lessBasis(row: Float64Array, basis: readonly Float64Array[]): Float64Array {
  for (const along of basis) takeOff(row, dot(row, along), along);
  return row;
}

/** Takes so much of another row off a row. */
export function takeOff(row: Float64Array, part: number, other: Float64Array): void {
  for (let i = 0; i < row.length; i += 1) row[i]! -= part * other[i]!;
}

/** Sum of the squares of a row. */
export const squaresOf = (row: Float64Array): number => dot(row, row);

/** Sum of the products of two rows of one length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
