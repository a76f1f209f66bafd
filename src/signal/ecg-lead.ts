import { nearest } from '../record/nearest.js';
import { bad, good, type Outcome, type Place } from '../record/problem.js';
import { leadName, plainLabel } from './lead-name.js';
import { usualSwing } from './lead-size.js';
import { toMillivolt } from './millivolt.js';
import type { Channel, Waveform } from './waveform.js';

/** Hz: sampled more slowly, a QRS of 0.04 s is two samples or fewer; faster than this no recorder writes. Common practice. */
const RATES = { least: 50, most: 100_000 };

/** mV: an ECG at the skin swings by a few; a unit of µV or counts of a converter taken for mV give hundreds. Common practice. */
const LARGEST_SWING = 100;

const isOfAnEcg = (lead: Channel): boolean => !(usualSwing(lead) > LARGEST_SWING);

const isSampledFit = ({ samplingRate }: Channel): boolean =>
  samplingRate >= RATES.least && samplingRate <= RATES.most;

/**
 * The ECG leads of a waveform in millivolt, the one that is asked for first; the others help to find beats and waves.
 * Leads whose sampling cannot show a QRS, or whose size no ECG has, are no leads.
 * @param place where the lead is asked for, for the message when there is none
 */
export function ecgLeads(
  waveform: Waveform,
  lead: string,
  place: Place,
): Outcome<readonly [Channel, ...Channel[]]> {
  const wanted = plainLabel(lead);
  const { channels } = waveform;
  const asked =
    channels.find(({ label }) => label === lead) ??
    channels.find(({ label }) => plainLabel(label) === wanted);
  if (!asked) {
    const labels = channels.map(({ label }) => label);
    const close = nearest(lead, labels);
    return bad({
      kind: 'a lead that the file does not have',
      ...place,
      found: `the lead "${lead}"`,
      expected: `one of the channels of the file: ${labels.join(', ')}`,
      mend: close ? `Did you mean "${close}"?` : 'Name one of them.',
    });
  }
  const first = toMillivolt(asked, place.file);
  if (!first.ok) return first;
  if (!isSampledFit(asked)) {
    return bad({
      kind: 'a sampling rate that does not fit',
      ...place,
      found: `"${asked.label}" at ${Number(asked.samplingRate.toPrecision(6))} samples per second`,
      expected: `an ECG at ${RATES.least} to ${RATES.most} samples per second`,
      mend: 'Correct the sampling rate, or the unit of the time column: "time [s]" or "time [ms]".',
    });
  }
  if (!isOfAnEcg(first.value)) {
    return bad({
      kind: 'an ECG of impossible size',
      ...place,
      found: `"${asked.label}" swings by ${Number(usualSwing(first.value).toPrecision(3))} mV in two seconds`,
      expected: `an ECG, which swings by a few mV, and by ${LARGEST_SWING} mV at most`,
      mend: 'Correct the unit of the channel, "µV" where "mV" stands for instance, or its gain.',
    });
  }
  // Another lead whose unit cannot be told is left out rather than refused: the one asked for does not need it.
  const others = channels
    .filter(
      (channel) => channel !== asked && leadName(channel.label) !== null && isSampledFit(channel),
    )
    .map((channel) => toMillivolt(channel, place.file))
    .flatMap((channel) => (channel.ok && isOfAnEcg(channel.value) ? [channel.value] : []));
  return good([first.value, ...others]);
}
