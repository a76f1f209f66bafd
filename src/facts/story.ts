import type { EventKind } from '../record/vocabulary.js';
import {
  type Change,
  COMPARED_MINUTES,
  changeAt,
  LEAST_PRESSURE_CHANGE,
} from '../vitals/change.js';
import { type Phase, phasesOf, untimed } from '../vitals/phases.js';
import type { Burden } from '../vitals/pressure.js';
import type { CaseEvent, ChannelFacts, StripFacts, VitalsFacts, WoundFacts } from './case-facts.js';
import { type Miscounted, miscounted } from './miscounted.js';

/** What happened on one time line, and what the vital signs did about it; minutes since the start of anesthesia. */
export interface Story {
  readonly phases: readonly Phase[];
  /** Events of every operation that the record does not tell. */
  readonly untimed: readonly EventKind[];
  /** The events that can move the circulation, with what was read before and after them. */
  readonly turns: readonly Turn[];
  /** Displayed rates that are left out of every comparison. */
  readonly miscounted: readonly Miscounted[];
  /** Mean pressure under the limit; null without a mean pressure. */
  readonly low: (Burden & { readonly limit: number; readonly episodes: number }) | null;
}

/** One step of the operation, by its place among the events of the anesthesia. */
interface Step {
  readonly event: number;
  readonly what: EventKind;
}

/** The minute of a step that can move the circulation, with the readings before and after it. */
export interface Turn {
  /** All steps of the minute, in order: what they changed together is told once. */
  readonly steps: readonly [Step, ...Step[]];
  readonly minute: number;
  /** Mean pressure, mmHg. */
  readonly pressure: Change;
  /** Displayed heart rate, beats/min. */
  readonly rate: Change;
  /** The turn before it, where that lies so near that a change may be its doing; null where none does. */
  readonly soonAfter: Pick<Turn, 'steps' | 'minute'> | null;
  /** What mean pressure did: null where it cannot be told. */
  readonly verdict: 'fell' | 'rose' | 'held' | null;
}

/** Steps of an operation after which pressure is looked at. Common practice. */
const TURNING: readonly EventKind[] = [
  'first incision',
  'bleeding',
  'bleeding stopped',
  'tissue removed',
  'closure',
];

/**
 * Puts the events on one time line and says what mean pressure (mmHg) and displayed rate (beats/min) did at each.
 * @param healing null where the patient died
 */
export function storyOf(
  events: readonly CaseEvent[],
  { channels, lowPressure }: Pick<VitalsFacts, 'channels' | 'lowPressure'>,
  healing: WoundFacts['healing']['value'] | null,
  strips: readonly Pick<StripFacts, 'shown'>[],
): Story {
  const leftOpen = healing === 'left open';
  const mean = patientsOf(channels, 'mean');
  const displayed = patientsOf(channels, 'heart rate');
  const wrong = miscounted(strips, displayed);
  const rate = displayed.filter(
    ({ minute }) => !wrong.some(({ from, to }) => minute >= from && minute <= to),
  );
  const all = turningMinutes(events);
  const minutes = all.map(({ minute }) => minute);
  return {
    phases: phasesOf(events, leftOpen),
    untimed: untimed(events, leftOpen),
    turns: all.map(({ minute, steps }, index): Turn => {
      const pressure = changeAt(minute, mean, minutes);
      const last = all[index - 1];
      return {
        steps,
        minute,
        pressure,
        rate: changeAt(minute, rate, minutes),
        soonAfter: last && minute - last.minute < COMPARED_MINUTES ? last : null,
        verdict: verdictOn(pressure.difference),
      };
    }),
    miscounted: wrong,
    low: lowPressure.value && {
      limit: lowPressure.value.limit,
      episodes: lowPressure.value.episodes.length,
      ...lowPressure.value.burden,
    },
  };
}

/** The minutes with a step after which pressure is looked at, in order, each with all of its steps. */
function turningMinutes(events: readonly CaseEvent[]): Pick<Turn, 'steps' | 'minute'>[] {
  const minutes = new Map<number, [Step, ...Step[]]>();
  for (const [event, { minute, what }] of events.entries()) {
    if (!TURNING.includes(what)) continue;
    const step = { event, what };
    minutes.set(minute, [...(minutes.get(minute) ?? []), step] as [Step, ...Step[]]);
  }
  return [...minutes]
    .map(([minute, steps]) => ({ minute, steps }))
    .sort((a, b) => a.minute - b.minute);
}

const patientsOf = (channels: readonly ChannelFacts[], name: string) =>
  channels.find(({ channel }) => channel === name)?.patient ?? [];

function verdictOn(difference: number | null): Turn['verdict'] {
  if (difference === null) return null;
  if (Math.abs(difference) < LEAST_PRESSURE_CHANGE) return 'held';
  return difference < 0 ? 'fell' : 'rose';
}
