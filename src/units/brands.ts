/**
 * Numbers that must not be mixed up carry their unit in the type.
 * A brand costs nothing at run time; it only stops `Mmhg` from being passed where `Bpm` is meant.
 */
declare const unit: unique symbol;
type Branded<U extends string> = number & { readonly [unit]: U };

export type Seconds = Branded<'s'>;
export type Millivolt = Branded<'mV'>;
export type Mmhg = Branded<'mmHg'>;
export type Bpm = Branded<'beats/min'>;
export type Kilogram = Branded<'kg'>;
export type Celsius = Branded<'°C'>;
export type Hertz = Branded<'Hz'>;

export const seconds = (value: number) => value as Seconds;
export const millivolt = (value: number) => value as Millivolt;
export const mmhg = (value: number) => value as Mmhg;
export const bpm = (value: number) => value as Bpm;
export const kilogram = (value: number) => value as Kilogram;
export const celsius = (value: number) => value as Celsius;
export const hertz = (value: number) => value as Hertz;
