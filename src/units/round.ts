/**
 * Rounds half away from zero to a number of decimals, on the decimal digits that a reader would see:
 * 1.005 at two decimals is 1.01, although the nearest binary number lies just below.
 */
export function roundTo(value: number, decimals: number): number {
  if (!Number.isFinite(value)) return value;
  const shifted = Number(`${Math.abs(value)}e${decimals}`);
  // Magnitudes written with an exponent of their own (1e-7, 1e21) cannot take a second one; plain scaling serves them.
  const rounded = Number.isNaN(shifted)
    ? Math.round(Math.abs(value) * 10 ** decimals) / 10 ** decimals
    : Number(`${Math.round(shifted)}e${-decimals}`);
  return Math.sign(value) * rounded || 0;
}
