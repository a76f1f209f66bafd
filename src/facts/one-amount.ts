import type { MedicineText } from '../record/medicine-schema.js';

/** Drops of a bottle for the eye or the ear in a millilitre. Common practice; bottles differ. */
export const DROPS_IN_ML = 20;

/** Whether the label tells what a mL holds and the owner gives drops. */
export const isDropped = ({ give, strength }: Pick<MedicineText, 'give' | 'strength'>): boolean =>
  give.unit !== strength.per;

/** What is given at one time, in the unit of `give`: what is written goes into each of two eyes or ears. */
export const amountAtOnce = ({ give, route }: Pick<MedicineText, 'give' | 'route'>): number =>
  give.value * (route.startsWith('in each ') ? 2 : 1);
