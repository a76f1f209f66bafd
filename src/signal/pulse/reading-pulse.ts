import { reason } from '../reason.js';
import type { Pulse } from './pulse.js';

/** One reading of the patient from a table of vitals, set on the clock of the strip. */
export interface PulseReading {
  /** s after the first sample of the strip; negative before it. */
  readonly second: number;
  readonly of: 'systolic pressure' | 'mean pressure' | 'oxygen saturation' | 'end-tidal CO2';
  /** mmHg, or % for the oxygen saturation. */
  readonly value: number;
  /** The line of the table of vitals in which it stands. */
  readonly line: number;
}

/**
 * A table tells the minute, a cuff takes up to a minute for its reading, and two clocks differ: the moment is known to
 * this, s. Common practice.
 */
const KNOWN_TO = 60;

/** At least this takes a beating heart, mmHg. From memory, unverified: a stopped circulation rests at about 7 to 15 mmHg. */
const BEATING = { 'systolic pressure': 50, 'mean pressure': 40 };

/** An invasive line that reads this, mmHg, may show a stopped circulation; less is a line that came off. From memory, unverified. */
const STANDSTILL = { from: 5, to: 25 };

/**
 * CO2 that is nearly gone, mmHg: hardly any blood passes the lungs, or hardly any breath the sensor. It is expected in
 * cardiopulmonary arrest but proves none: Fletcher et al., RECOVER evidence and knowledge gap analysis on veterinary
 * CPR, part 7, J Vet Emerg Crit Care 22(S1):S102-S131 (2012). The number: from memory, unverified.
 */
export const HARDLY_ANY_CO2 = 5;

/** What readings say of the pulse. No reading says that there is none. */
export function readingPulses(readings: readonly PulseReading[]): Pulse[] {
  return readings.flatMap((reading) => {
    const pulse = saidBy(reading);
    if (pulse === null) return [];
    const { second, of, value, line } = reading;
    return {
      from: second - KNOWN_TO,
      to: second + KNOWN_TO,
      holds: 'at a moment' as const,
      pulse,
      because: [reason(`${of} read`, { value, second, line })],
    };
  });
}

function saidBy({ of, value }: PulseReading): Pulse['pulse'] | null {
  switch (of) {
    case 'systolic pressure':
    case 'mean pressure':
      return value >= BEATING[of] ? 'present' : 'cannot tell';
    case 'oxygen saturation':
      return value > 0 ? 'cannot tell' : null;
    case 'end-tidal CO2':
      return value < HARDLY_ANY_CO2 ? 'cannot tell' : null;
  }
}

/** The reading that shows, between `from` and `to` s, that the pressure fell to that of a stopped circulation; null without one. */
export function fallenPressure(
  readings: readonly PulseReading[],
  from: number,
  to: number,
): PulseReading | null {
  const pressures = readings.filter(({ of }) => of === 'mean pressure');
  const fallen = pressures.find(
    ({ second, value }) =>
      second + KNOWN_TO > from &&
      second - KNOWN_TO < to &&
      value >= STANDSTILL.from &&
      value <= STANDSTILL.to,
  );
  const before = pressures.some(
    ({ second, value }) => fallen && second < fallen.second && value >= BEATING['mean pressure'],
  );
  return fallen && before ? fallen : null;
}
