import type { Temporal } from 'temporal-polyfill';
import type { Quantity } from '../../record/quantity.js';
import type { ClinicDose } from './formulary-row.js';

/** A medicine to be given at home, by what its dose comes to. */
export interface PlannedMedicine {
  readonly drug: string;
  /** What it is for, as the record names it, and which way it is given. */
  readonly purpose: string;
  readonly route: string;
  readonly food: 'with food' | 'without food' | 'either';
  /** How much at one time. */
  readonly give: Quantity;
  /** mg per kg of body weight at one time, and the most within 24 hours; null of what is smeared on and has no mass. */
  readonly perKilogram: number | null;
  readonly perKilogramDay: number | null;
  /** Shortest time from dose to dose, in hours. */
  readonly hours: number;
  /** The last clinic dose that the plan knows of. */
  readonly lastGiven: Temporal.ZonedDateTime | null;
  /** Ascending, at least one; of a medicine as needed as many and as early as may be. */
  readonly doses: readonly Temporal.ZonedDateTime[];
  /** Of a medicine as needed the end of its last day: each dose may as well come later, up to then. Null where doses have their hours. */
  readonly asNeededUntil: Temporal.ZonedDateTime | null;
}

/** A dose that was given in the clinic; mg per kg where the record gives a mass. */
export interface GivenDose extends ClinicDose {
  readonly at: Temporal.ZonedDateTime;
}
