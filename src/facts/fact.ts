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

/** A thing that the record cannot support, with the reason; one of a few where documents of several languages say it. */
export interface NotKnown<Why extends string = string> {
  readonly value: null;
  readonly why: Why;
}

/** A fact, or why there is none. */
export type Stated<T, Why extends string = string> = Fact<T> | NotKnown<Why>;

/** A fact that the record states; `from` names the fields. */
export const recorded = <T>(value: T, ...from: string[]): Fact<T> => ({
  value,
  how: 'recorded',
  from,
});

/** A fact that follows from others; `how` is the rule or formula in a few words. */
export const computed = <T>(value: T, how: string, ...from: string[]): Fact<T> => ({
  value,
  how,
  from,
});

/** A thing that the record cannot support. */
export const notKnown = <Why extends string>(why: Why): NotKnown<Why> => ({ value: null, why });

/** Whether a stated thing has a value. */
export const isKnown = <T>(stated: Stated<T>): stated is Fact<T> => stated.value !== null;
