/** Below it a product is right to far less than `DOUBT`. Not a clinical number. */
const PLAIN = 1e9;
/** So near to a half the decimal digits decide; all else rounds alike without writing them. Not a clinical number. */
const DOUBT = 1e-6;

/**
 * Rounds half away from zero to a number of decimals, on the decimal digits that a reader would see:
 * 1.005 at two decimals is 1.01, although the nearest binary number lies just below.
 */
export function roundTo(value: number, decimals: number): number {
  // From 1e21 on a number is written with an exponent, and has had no decimals for long.
  if (!Number.isFinite(value) || Math.abs(value) >= 1e21) return value;
  const scaled = Math.abs(value) * 10 ** decimals;
  const isPlain = decimals >= 0 && scaled < PLAIN && Math.abs((scaled % 1) - 0.5) > DOUBT;
  if (isPlain) return (Math.sign(value) * Math.round(scaled)) / 10 ** decimals || 0;
  const shifted = Number(`${Math.abs(value)}e${decimals}`);
  // A small magnitude written with an exponent of its own (1e-7) cannot take a second one; plain scaling serves it.
  const rounded = Number.isNaN(shifted)
    ? Math.round(Math.abs(value) * 10 ** decimals) / 10 ** decimals
    : Number(`${Math.round(shifted)}e${-decimals}`);
  return Math.sign(value) * rounded || 0;
}

/** Rounded to so many significant digits. */
export const toDigits = (value: number, digits: number): number =>
  value === 0 ? 0 : roundTo(value, digits - 1 - Math.floor(Math.log10(Math.abs(value))));

/** Plain data with every number in it rounded to so many decimals. */
export const allRounded = <T>(data: T, decimals: number): T =>
  JSON.parse(
    JSON.stringify(data, (_, part: unknown) =>
      typeof part === 'number' ? roundTo(part, decimals) : part,
    ),
  ) as T;
