import { ACCEPTED_UNITS } from '../vitals-rows.js';
import type { ChannelName } from '../vocabulary.js';
import { namedChannel, unitWords } from './named-channel.js';
import { spelledUnit } from './spelled-unit.js';

/** A unit as a table tells it. */
export type ToldUnit =
  | { readonly told: string }
  /** A unit that this channel is not read in. */
  | { readonly foreign: string }
  /** Where the table tells none: what its numbers suggest, and what was told in place of a unit. */
  | { readonly guessed: string; readonly said: string; readonly orElse?: string };

/** Units of other measurements, or of these as this program does not read them. */
const FOREIGN = /^(%|vol ?%|ms|hz|mv|cmh2o|hpa|mbar|pa|k|mmhg|kpa|ml|l\/min|ml\/min)$/i;
/** As above; of a word that does not stand in brackets, those that mean nothing else. */
const FOREIGN_WORD = /^(%|ms|hz|cmh2o|hpa|mbar|mmhg|kpa)$/i;

/** What parts kilopascals from millimetres of mercury in the middle of a column: 20 kPa are 150 mmHg, and no patient lives at 15 mmHg of CO2. Common practice. */
const KILOPASCALS_UP_TO: Readonly<Partial<Record<ChannelName, number>>> = {
  EtCO2: 12,
  systolic: 35,
  mean: 25,
  diastolic: 20,
};

/** Degrees that part the two scales: no patient is that warm in °C or that cold in °F. Common practice. */
const FAHRENHEIT_FROM = 50;

/**
 * The unit of a column.
 * @param title its title, with what stands below it where that is a unit
 * @param readings its numbers
 */
export function toldUnit(
  title: string,
  channel: ChannelName,
  readings: readonly number[],
): ToldUnit {
  const units = ACCEPTED_UNITS[channel];
  const numbers = readings.filter((reading) => reading > 0).sort((a, b) => a - b);
  const middle = numbers[numbers.length >> 1] ?? 0;
  const { bracketed, words } = unitWords(title);
  // A saturation of 1 % is none, whatever the title says.
  if (channel === 'SpO2' && middle > 0 && (numbers.at(-1) ?? 0) <= 1) {
    return { guessed: 'fraction', said: words.find((word) => word === '%') ?? '' };
  }
  const known = words.map((word) => spelledUnit(word, units)).find((unit) => unit !== undefined);
  if (known !== undefined) return { told: known };
  const foreign = words.find((word) => (bracketed ? FOREIGN : FOREIGN_WORD).test(word));
  if (foreign !== undefined) return { foreign };
  const [first = ''] = words;
  const said = bracketed && !namedChannel(first) ? first : '';
  const parts = KILOPASCALS_UP_TO[channel];
  if (parts !== undefined && middle > 0) {
    const isSmall = middle < parts;
    // Near sea level so many kPa and so many percent are numbers of one size.
    if (isSmall && channel === 'EtCO2') return { guessed: 'kPa', said, orElse: '%' };
    return { guessed: isSmall ? 'kPa' : 'mmHg', said };
  }
  if (channel === 'temperature') return { guessed: middle > FAHRENHEIT_FROM ? 'F' : 'C', said };
  return units.length === 1 || channel === 'SpO2'
    ? { told: units[0] as string }
    : { guessed: units[0] as string, said };
}

/** Whether what stands below a title tells a unit, of whatever measurement. */
export const isUnit = (words: string): boolean => {
  const plain = words.replace(/^[([{]|[)\]}]$/g, '').trim();
  const all = [...new Set(Object.values(ACCEPTED_UNITS).flat())];
  return FOREIGN.test(plain) || spelledUnit(plain, all) !== undefined;
};
