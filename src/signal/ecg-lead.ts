import { nearest } from '../record/nearest.js';
import { bad, type Outcome, type Problem } from '../record/problem.js';
import { toMillivolt } from './millivolt.js';
import type { Channel, Waveform } from './waveform.js';

/** Label without what files put around the name of a lead: `ECG II`, `MLII` and `Lead II` are lead II. */
const plainLabel = (label: string): string =>
  label
    .trim()
    .replace(/^(ecg|ekg|lead|ml(?=i|v))[\s_-]*/i, '')
    .toLowerCase();

/**
 * The channel of a waveform that records a lead, in millivolt.
 * @param place where the lead is asked for, for the message when there is none
 */
export function ecgLead(
  waveform: Waveform,
  lead: string,
  place: Pick<Problem, 'file' | 'line' | 'column' | 'field'>,
): Outcome<Channel> {
  const wanted = plainLabel(lead);
  const channel =
    waveform.channels.find(({ label }) => label === lead) ??
    waveform.channels.find(({ label }) => plainLabel(label) === wanted);
  if (channel) return toMillivolt(channel, place.file);
  const labels = waveform.channels.map(({ label }) => label);
  const close = nearest(lead, labels);
  return bad({
    ...place,
    found: `the lead "${lead}"`,
    expected: `one of the channels of the file: ${labels.join(', ')}`,
    mend: close ? `Did you mean "${close}"?` : 'Name one of them.',
  });
}
