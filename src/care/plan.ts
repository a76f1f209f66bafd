import { Temporal } from 'temporal-polyfill';
import type { Species } from '../record/vocabulary.js';
import { type HealingEstimate, REMOVAL_DAYS } from './wound.js';

/** What a patient may do, from least to most; each stage allows at least as much as the one before. */
export const ACTIVITIES = ['settle in', 'rest', 'short walks', 'build up', 'full'] as const;
/** What the patient may do in a stage. */
type Activity = (typeof ACTIVITIES)[number];

/** What a wound of joined edges looks like while all goes well, in the order in which it changes. */
export const JOINED_LOOKS = ['fresh', 'early', 'settling', 'crusts', 'flat', 'scar'] as const;
/** The same for a wound that is left open. */
export const OPEN_LOOKS = ['open fresh', 'open wet', 'open red', 'open shrinking'] as const;
/** The same for one that is left open without a bandage. */
export const BARE_LOOKS = ['bare fresh', 'open red', 'open shrinking'] as const;
/** What a mouth is like while its wounds heal. */
export const MOUTH_LOOKS = ['mouth fresh', 'mouth sore', 'mouth well'] as const;
/** What a wound that heals well looks like in a stage. */
type Look =
  | (typeof JOINED_LOOKS)[number]
  | (typeof OPEN_LOOKS)[number]
  | (typeof BARE_LOOKS)[number]
  | (typeof MOUTH_LOOKS)[number];

/** Days, counted from surgery as day 0, on which the owner's picture of a healthy wound changes. */
type Days = Readonly<Record<string, number>>;

/**
 * First day of each look of joined edges that heal in the usual time. Common practice: look on days 1, 3, 7 and 10; what is
 * seen on each is from memory, unverified.
 */
const JOINED_FROM = {
  fresh: 0,
  early: 1,
  settling: 3,
  crusts: 7,
  flat: 10,
  scar: 14,
} as const satisfies Days;
/** First day of each look of an open wound. From memory, unverified: new red tissue from day 3 to 5 on, shrinking after a week or so. */
const OPEN_FROM = {
  'open fresh': 0,
  'bare fresh': 0,
  'open wet': 1,
  'open red': 3,
  'open shrinking': 8,
} as const satisfies Days;
/** First day of each state of a mouth. From memory, unverified. */
const MOUTH_FROM = { 'mouth fresh': 0, 'mouth sore': 2, 'mouth well': 7 } as const satisfies Days;
/** First day of short walks after the days of rest; later where the wound heals slowly. Common practice. */
const WALKS_FROM = 3;

/** What the plan is made of. Dates are `YYYY-MM-DD`. */
export interface PlanInput {
  readonly surgery: string;
  /** The day on which the patient goes home. */
  readonly homeOn: string;
  readonly estimate: HealingEstimate;
  /** Last day of rest. */
  readonly restUntil: string;
  /** First day of full activity; null where the record does not say. */
  readonly fullFrom: string | null;
  readonly inMouth?: boolean;
  /** Whether it is left open without a bandage. */
  readonly bare?: boolean;
}

/** Some days with the same things to do and to see. */
export interface PlanStage {
  readonly from: string;
  /** Last day; null for the stage that has no end. */
  readonly to: string | null;
  readonly activity: Activity;
  readonly look: Look;
}

/** The stages from the first night to full activity, in order. */
export interface CarePlan {
  /** In order, without a gap, from the day at home to no end. */
  readonly stages: readonly PlanStage[];
  /** Why steps come later than usual; none where they do not. */
  readonly later: readonly string[];
}

/**
 * From the day at home to full activity. Steps after the first days follow the time that the closure needs: where it needs
 * 14 days instead of 10, what is usual on day 7 comes on day 10 and what is usual on day 10 comes on day 14.
 */
export function carePlan(input: PlanInput): CarePlan {
  const { estimate, surgery } = input;
  const day0 = Temporal.PlainDate.from(surgery);
  const dayOf = (date: string) => day0.until(date, { largestUnit: 'days' }).days;
  const home = dayOf(input.homeOn);
  const rest = dayOf(input.restUntil);
  const full = input.fullFrom === null ? null : dayOf(input.fullFrom);
  const moved = (day: number) => movedDay(day, estimate);

  const looks = looksOf(input, rest);
  const steps: readonly (readonly [Activity, number])[] = [
    ['settle in', home],
    ['rest', home + 1],
    ['short walks', Math.max(home + 1, moved(WALKS_FROM))],
    ['build up', Math.max(home + 1, rest + 1)],
    ...(full === null ? [] : [['full', Math.max(home + 1, full)] as const]),
  ];
  const starts = [...new Set([...looks, ...steps].map(([, day]) => day))]
    .filter((day) => day >= home)
    .sort((a, b) => a - b)
    // A step that another one has overtaken begins nothing.
    .filter(
      (day) =>
        day === home ||
        on(steps, day) !== on(steps, day - 1) ||
        on(looks, day) !== on(looks, day - 1),
    );
  const dateOf = (day: number) => day0.add({ days: day }).toString();
  return {
    stages: starts.map((day, index) => {
      const next = starts[index + 1];
      return {
        from: dateOf(day),
        to: next === undefined ? null : dateOf(next - 1),
        activity: on(steps, day),
        look: on(looks, day),
      };
    }),
    later: estimate.later,
  };
}

/** The looks of a wound with the days on which they begin. @param rest the last day of rest */
function looksOf(
  { estimate, inMouth, bare }: PlanInput,
  rest: number,
): readonly (readonly [Look, number])[] {
  const moved = (day: number) => movedDay(day, estimate);
  if (inMouth) return MOUTH_LOOKS.map((look) => [look, moved(MOUTH_FROM[look])]);
  if (estimate.by !== 'joined edges') {
    return (bare ? BARE_LOOKS : OPEN_LOOKS).map((look) => [look, OPEN_FROM[look]]);
  }
  return JOINED_LOOKS.map((look) => [
    look,
    // A scar is told of with the end of rest, so that one more row is not spent on it.
    look === 'scar' ? Math.max(moved(JOINED_FROM.scar), rest + 1) : moved(JOINED_FROM[look]),
  ]);
}

/** The last of the steps that have begun by a day; they need not be in the order of their days. */
function on<T>(steps: readonly (readonly [T, number])[], day: number): T {
  const begun = steps.filter(([, from]) => from <= day);
  return (begun.at(-1) ?? (steps[0] as readonly [T, number]))[0];
}

/** A day of the usual course, in the course that this closure takes. An open wound has no figure to move by. */
export function movedDay(day: number, estimate: HealingEstimate): number {
  return estimate.by === 'joined edges'
    ? Math.round((day * estimate.from) / REMOVAL_DAYS.from)
    : day;
}

/**
 * The first day for a bath: the day after the last thing that holds or guards the wound is gone. Common practice: not before
 * the edges hold by themselves.
 * @param last days on which stitches, glue, a drain or the collar go
 */
export function bathFrom(
  surgery: string,
  estimate: HealingEstimate,
  last: readonly string[],
): string {
  const holds = Temporal.PlainDate.from(surgery).add({ days: estimate.from }).toString();
  const latest = [holds, ...last].sort().at(-1) as string;
  return Temporal.PlainDate.from(latest).add({ days: 1 }).toString();
}

/**
 * The first day, counted from surgery, on which an open wound can have closed: the days until it begins to shrink and those
 * that the gap takes at the fastest rate. Null for joined edges.
 */
export function closedFrom({ by, from }: HealingEstimate): number | null {
  if (by === 'joined edges') return null;
  return by === 'small opening' ? from : OPEN_FROM['open shrinking'] + from;
}

/**
 * Days of rest until bone or ligament bear a run, by the procedure's key in content/; the skin is closed long before.
 * Common practice; that it is six weeks is from memory, unverified.
 */
const DEEP_REST: ReadonlyMap<string, number> = new Map([
  ['knee ligament repair', 42],
  ['broken bone repair', 42],
]);

/** Days after surgery until which there is rest at least: until the edges hold, and what lies below them. */
export const leastRest = (procedure: string, { from }: HealingEstimate): number =>
  Math.max(from, DEEP_REST.get(procedure) ?? 0);

/** Species that must not go without food, so that they eat as soon as they are awake. Common practice. */
export const mustKeepEating = (species: Species): boolean =>
  species === 'rabbit' || species === 'ferret';
