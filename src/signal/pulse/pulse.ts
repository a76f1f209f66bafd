import type { Reason } from '../reason.js';

/** What a channel beside the ECG says of the pulse over a time, s after the first sample of the strip. */
export interface Pulse {
  readonly from: number;
  readonly to: number;
  /** `cannot tell`: worth a word among the reasons, but it proves nothing. */
  readonly pulse: 'present' | 'absent' | 'cannot tell';
  /** `at a moment`: it holds at some moment between `from` and `to`, nobody knows at which. */
  readonly holds: 'throughout' | 'at a moment';
  /** Which channel, when, and with which numbers. */
  readonly because: readonly Reason[];
}

/** `changes`: present and absent in turn, or one channel against another. */
export type PulseVerdict = 'present' | 'absent' | 'changes' | 'cannot tell' | 'not recorded';

// The constants of this file are choices of the method, not clinical numbers.

/** The pulse of the last QRS before a stretch still arrives within this, s. */
const STILL_ARRIVES = 1;
/** Where a stretch ends is known to this, s. */
const END_IS_KNOWN_TO = 0.5;
/** Less of it may be the edge of something else, s. */
const LEAST = 0.5;
/** What is said of a stretch must hold over this share of it. */
const MOST_OF_IT = 0.8;

/**
 * What the pulses say of the stretch from `from` to `to` s. Present or absent only where that holds over most of the
 * stretch, or where a moment with a pulse lies wholly within it; a channel that says nothing for long leaves it open.
 */
export function pulseOver(pulses: readonly Pulse[], from: number, to: number): PulseVerdict {
  const inner = { from: from + STILL_ARRIVES, to: to - END_IS_KNOWN_TO };
  if (pulsesIn(pulses, from, to).length === 0) return 'not recorded';
  const all = inner.to - inner.from;
  if (!(all > 0)) return 'cannot tell';
  const present = covered(pulses, 'present', inner);
  const absent = covered(pulses, 'absent', inner);
  const atSomeMoment = pulses.some(
    (each) =>
      each.pulse === 'present' &&
      each.holds === 'at a moment' &&
      each.from >= inner.from &&
      each.to <= inner.to,
  );
  const isThere = present >= LEAST || atSomeMoment;
  if (isThere && absent >= LEAST) return 'changes';
  if (atSomeMoment || present >= MOST_OF_IT * all) return 'present';
  return !isThere && absent >= MOST_OF_IT * all ? 'absent' : 'cannot tell';
}

/** Those that speak of a part of the stretch, in order of time. */
export function pulsesIn(pulses: readonly Pulse[], from: number, to: number): Pulse[] {
  return pulses
    .filter((pulse) => pulse.from < to && pulse.to > from)
    .toSorted((a, b) => a.from - b.from);
}

/** Seconds of the stretch over which some channel says this throughout. */
function covered(
  pulses: readonly Pulse[],
  said: Pulse['pulse'],
  { from, to }: { readonly from: number; readonly to: number },
): number {
  let sum = 0;
  let end = from;
  for (const each of pulsesIn(pulses, from, to)) {
    if (each.pulse !== said || each.holds !== 'throughout') continue;
    const last = Math.min(to, each.to);
    sum += Math.max(0, last - Math.max(end, each.from));
    end = Math.max(end, last);
  }
  return sum;
}
