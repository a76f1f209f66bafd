import { roundTo, toDigits } from '../units/round.js';

const FRACTIONS: Readonly<Record<string, string>> = { '0.25': '¼', '0.5': '½', '0.75': '¾' };

/** `1 ½` for tablets, `0.6` for everything else; never a naked or trailing zero (ISMP error-prone list: write 0.5, not .5; 5, not 5.0). */
export function amount(value: number, unit: string): string {
  const whole = Math.floor(value);
  const fraction = FRACTIONS[String(roundTo(value - whole, 2))];
  if (unit !== 'tablet' || !fraction) return String(roundTo(value, 3));
  return whole === 0 ? fraction : `${whole} ${fraction}`;
}

/** A measured number with as many decimals as it deserves, and the minus sign of print. */
export const decimals = (value: number, places: number): string =>
  String(roundTo(value, places)).replace('-', '−');

/** A measured number in a column, whose decimals stand below one another: `37.0` under `37.5`. Not for doses, see `amount`. */
export const aligned = (value: number, places: number): string =>
  roundTo(value, places).toFixed(places).replace('-', '−');

/** Two significant digits, for a dose per kilogram. */
export const twoDigits = (value: number): string => String(toDigits(value, 2));

/** How many times one number is another, always with two decimals: `1.00` says that it was compared. */
export const times = (ratio: number): string => ratio.toFixed(2);
