/**
 * A stated thing: its value, how it came about and what it rests on.
 * `from` names fields (`case.yaml:12 patient.weight`), rows (`vitals.csv:14`), samples (`strip.edf II 0-60 s`) or a
 * published source.
 */
export interface Fact<T> {
  readonly value: T;
  /** `recorded` for what the record says, else the rule or formula in a few words. */
  readonly how: string;
  readonly from: readonly string[];
}

/** A thing that the record cannot support, with the reason. */
export interface NotKnown {
  readonly value: null;
  readonly why: string;
}

export type Stated<T> = Fact<T> | NotKnown;

export const recorded = <T>(value: T, ...from: string[]): Fact<T> => ({
  value,
  how: 'recorded',
  from,
});

export const computed = <T>(value: T, how: string, ...from: string[]): Fact<T> => ({
  value,
  how,
  from,
});

export const notKnown = (why: string): NotKnown => ({ value: null, why });

export const isKnown = <T>(stated: Stated<T>): stated is Fact<T> => stated.value !== null;
