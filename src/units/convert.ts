import { type Celsius, celsius, type Kilogram, kilogram } from './brands.js';

/** Kilograms in one avoirdupois pound, exact. Source: NIST Special Publication 811 (2008), appendix B.8. */
const KILOGRAM_PER_POUND = 0.453_592_37;

/** Mass in `unit` to kilograms. */
export function toKilogram(value: number, unit: 'kg' | 'g' | 'lb'): Kilogram {
  switch (unit) {
    case 'kg':
      return kilogram(value);
    case 'g':
      return kilogram(value / 1000);
    case 'lb':
      return kilogram(value * KILOGRAM_PER_POUND);
  }
}

/** Temperature in `unit` to degrees Celsius: (F − 32) / 1.8, exact. Source: NIST Special Publication 811 (2008), appendix B.8. */
export function toCelsius(value: number, unit: 'C' | 'F'): Celsius {
  return celsius(unit === 'C' ? value : (value - 32) / 1.8);
}

/** Mass of a medicine to milligrams: 1 g = 1000 mg, 1 mcg = 0.001 mg (SI prefixes, exact). */
export function toMilligram(value: number, unit: 'g' | 'mg' | 'mcg'): number {
  return unit === 'g' ? value * 1000 : unit === 'mcg' ? value / 1000 : value;
}
