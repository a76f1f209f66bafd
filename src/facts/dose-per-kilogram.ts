import type { DrugGiven } from './case-facts.js';

/** A dose over kilograms of body weight. */
export interface DosePerKilogram {
  readonly value: number;
  /** Of the dose; per kg. */
  readonly unit: 'mg' | 'mcg' | 'mL';
}

/**
 * A dose per kilogram in the unit in which it was entered, as it would be compared with the record: 0.005 mg/kg of a dose
 * in mcg is read wrongly, and has lost its digits. Grams are told in mg/kg.
 */
export function dosePerKilogram({
  amount,
  perKilogram,
  volumePerKilogram,
}: Pick<DrugGiven, 'amount' | 'perKilogram' | 'volumePerKilogram'>): DosePerKilogram {
  if (volumePerKilogram) return { value: volumePerKilogram.value, unit: 'mL' };
  // Whatever is no volume has a mass.
  const milligram = perKilogram.value as number;
  return amount.unit === 'mcg'
    ? { value: milligram * 1000, unit: 'mcg' }
    : { value: milligram, unit: 'mg' };
}
