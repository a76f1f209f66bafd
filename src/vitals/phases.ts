import type { EventKind } from '../record/vocabulary.js';

/** Something that happened, in minutes since the start of anesthesia. */
export interface Timed {
  readonly minute: number;
  readonly what: EventKind;
}

/** A stretch between two events that the record names. */
export interface Phase {
  readonly name: PhaseName;
  readonly from: number;
  readonly to: number;
}

/** Each phase with the events that bound it. */
const BOUNDS = {
  preparation: ['induction', 'first incision'],
  operation: ['first incision', 'closure'],
  bleeding: ['bleeding', 'bleeding stopped'],
  closing: ['closure', 'end of surgery'],
  recovery: ['end of surgery', 'extubation'],
} as const satisfies Readonly<Record<string, readonly [from: EventKind, to: EventKind]>>;

/** A part of the anesthesia. */
type PhaseName = keyof typeof BOUNDS;

/** The parts of an anesthesia, in order. */
const PHASES = Object.keys(BOUNDS) as readonly PhaseName[];

/**
 * The course of an operation as far as the record bounds it. Where no closure is told, as of a wound that is left open, the
 * operation lasts to the end of surgery, with whatever was closed within it.
 */
export function phasesOf(events: readonly Timed[], leftOpen: boolean): Phase[] {
  return PHASES.flatMap((name): Phase[] => {
    const [begin, end] = BOUNDS[name];
    if (name === 'closing' && leftOpen) return [];
    const isUnparted = leftOpen || minuteOf(events, 'closure') === undefined;
    const last = name === 'operation' && isUnparted ? 'end of surgery' : end;
    const from = minuteOf(events, begin);
    const to = minuteOf(events, last);
    return from === undefined || to === undefined || to <= from ? [] : [{ name, from, to }];
  });
}

/** Events of every operation that the record does not tell the time of; who died may not have come to any of them. */
export function untimed(events: readonly Timed[], leftOpen: boolean): EventKind[] {
  if (minuteOf(events, 'death') !== undefined) return [];
  const expected: readonly EventKind[] = [
    'induction',
    'first incision',
    ...(leftOpen ? [] : (['closure'] as const)),
    'end of surgery',
    'extubation',
  ];
  return expected.filter((what) => minuteOf(events, what) === undefined);
}

const minuteOf = (events: readonly Timed[], what: EventKind): number | undefined =>
  events.find((event) => event.what === what)?.minute;
