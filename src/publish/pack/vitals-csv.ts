import type { ChannelFacts } from '../../facts/case-facts.js';
import type { Reading } from '../../vitals/channel.js';

/**
 * What the monitor showed of the patient as a table (RFC 4180, LF line ends) in the form that `vitals.csv` of a case
 * has: minutes since the start of anesthesia, then a column a channel. What was computed or was not the patient's stays
 * out. Every cell is a number or empty, every title begins with a letter: no cell can be taken for a formula.
 */
export function vitalsCsv(channels: readonly ChannelFacts[]): string {
  const read = channels
    .filter(({ patient }) => patient.length === 0 || !patient.every(isComputed))
    .map((channel) => ({
      ...channel,
      patient: channel.patient.filter((reading) => !isComputed(reading)),
    }));
  const minutes = [...new Set(read.flatMap(({ patient }) => patient.map(({ minute }) => minute)))];
  const values = read.map(
    ({ patient }) => new Map(patient.map(({ minute, value }) => [minute, value])),
  );
  const rows = minutes
    .sort((a, b) => a - b)
    .map((minute) => [minute, ...values.map((column) => column.get(minute))].map(cell).join(','));
  const titles = ['elapsed [min]', ...read.map(({ channel, unit }) => `${channel} [${unit}]`)];
  return `${[titles.join(','), ...rows].join('\n')}\n`;
}

const isComputed = ({ computed }: Reading): boolean => computed === true;

/** A number in plain digits, without an exponent. */
function cell(value: number | undefined): string {
  if (value === undefined) return '';
  const text = String(value);
  return text.includes('e') ? value.toFixed(9) : text;
}
