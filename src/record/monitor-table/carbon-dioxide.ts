import { z } from 'zod';
import { roundTo } from '../../units/round.js';
import { positive } from '../quantity.js';
import { CONVERTED, PASCAL_PER_MMHG } from '../read-cells.js';
import { refusal } from '../refusal.js';
import { ACCEPTED_UNITS } from '../vitals-rows.js';
import type { ChannelName } from '../vocabulary.js';
import { oneOf } from '../words.js';

/** The units in which a monitor's table may tell a channel; CO2 in percent needs the pressure of the air beside it. */
export const TABLE_UNITS: Readonly<Record<ChannelName, readonly string[]>> = {
  ...ACCEPTED_UNITS,
  EtCO2: [...ACCEPTED_UNITS.EtCO2, '%'],
};

/** Pressures of the air between the highest and the lowest clinics, in mmHg: some 5000 m up, and below the sea in high pressure. Common practice. */
const AIR = [400, 820] as const;

/** Pressure of water vapor in gas that is saturated at 37 °C, in mmHg. Common practice. */
const WATER_VAPOR = 47;

/** Pascals in each unit of pressure. Not a clinical number. */
const PASCALS = { mmHg: PASCAL_PER_MMHG, kPa: 1000, hPa: 100 } as const;

const PRESSURE = 'the pressure of the air at the clinic itself, as its own barometer shows it';

/** What a monitor tells in percent, and of which pressure: either makes a difference of several mmHg, so neither is guessed. */
export const inPercent = z
  .strictObject({
    of: oneOf(
      'whether the percent are of "dry gas", as analyzers tell that dry what they draw from the airway, or of "moist gas" as it leaves the patient',
      ['dry gas', 'moist gas'],
    ),
    'barometric pressure': positive(['mmHg', 'kPa', 'hPa'], PRESSURE).transform(
      ({ value, unit, written }, context) => {
        const inMmhg = (value * PASCALS[unit]) / PASCAL_PER_MMHG;
        if (inMmhg >= AIR[0] && inMmhg <= AIR[1]) return inMmhg;
        context.addIssue(
          refusal(
            'a barometric pressure that no clinic has',
            written,
            `${PRESSURE}, between ${AIR[0]} and ${AIR[1]} mmHg`,
            'Check the unit: at sea level the air has about 760 mmHg, which are 101 kPa or 1013 hPa.',
          ),
        );
        return z.NEVER;
      },
    ),
  })
  .meta({
    description: 'what CO2 in percent is part of: needed to tell its pressure, and never guessed',
  });

type InPercent = z.output<typeof inPercent>;

/**
 * CO2 in volume percent to its pressure in the moist gas of the airway, in mmHg: the fraction of the pressure of the air
 * (Dalton's law), less that of the water vapor where the percent are of dry gas. Common practice.
 */
export function pressureOf(percent: number, { of, 'barometric pressure': air }: InPercent): number {
  const whole = of === 'dry gas' ? air - WATER_VAPOR : air;
  return roundTo((percent / 100) * whole, CONVERTED);
}
