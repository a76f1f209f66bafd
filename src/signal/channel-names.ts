import { leadName, UNNAMED_LEAD } from './lead-name.js';
import { isPlethysmogram } from './pulse/plethysmogram-pulse.js';
import { isArterialPressure } from './pulse/pressure-pulse.js';
import type { Channel, Waveform } from './waveform.js';

interface Kind {
  readonly name: string;
  readonly is: (channel: Channel) => boolean;
  readonly units: readonly string[];
}

/** Channels that show pulse or breath, in the order in which they are tried; each name is still found as what it is. */
const KINDS: readonly Kind[] = [
  { name: 'ABP', is: isArterialPressure, units: ['mmHg', 'kPa'] },
  { name: 'Pleth', is: isPlethysmogram, units: ['', '%', 'V', 'mV'] },
  { name: 'CO2', is: ({ label }) => /co2|capno/i.test(label), units: ['mmHg', 'kPa', '%'] },
  {
    name: 'Resp',
    is: ({ label }) => /imped|resp|thora/i.test(label),
    units: ['Ohm', 'ohm', '\u03a9', '\u2126', 'mOhm', '', 'mV'],
  },
  {
    name: 'Airway pressure',
    is: ({ label }) => /airway|paw|vent|press/i.test(label),
    units: ['cmH2O', 'mbar', 'hPa'],
  },
];

/**
 * A waveform whose channels bear the names of the trade: a label is free text, and may hold whatever somebody typed at
 * a recorder. Channels that are neither lead nor of pulse or breath are left out. The lead that is read comes first;
 * of channels that would have one name the later ones are numbered (`II (2)`).
 * @param written the label of the lead that is read, as the file writes it
 * @returns also the new name of that lead
 */
export function inTradeNames(
  waveform: Waveform,
  written: string,
): { readonly waveform: Waveform; readonly read: string } {
  const { channels } = waveform;
  const first = channels.findIndex(({ label }) => label === written);
  const read = leadName(written) ?? UNNAMED_LEAD;
  const before = new Map<string, number>();
  const named = (channel: Channel, name: string | null): Channel[] => {
    if (name === null) return [];
    const count = (before.get(name) ?? 0) + 1;
    before.set(name, count);
    return [{ ...channel, label: count === 1 ? name : `${name} (${count})` }];
  };
  return {
    read,
    waveform: {
      ...waveform,
      channels: [
        ...channels.slice(first, first + 1).flatMap((lead) => named(lead, read)),
        ...channels
          .filter((_, index) => index !== first)
          .flatMap((channel) => named(channel, nameOf(channel))),
      ],
    },
  };
}

const nameOf = (channel: Channel): string | null =>
  leadName(channel.label) ??
  KINDS.find(({ is, units }) => is(channel) && units.includes(channel.unit))?.name ??
  null;
