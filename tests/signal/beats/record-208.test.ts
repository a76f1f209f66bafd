import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { readableSpans } from '../../../src/signal/quality/readable-lead.js';
import { hertz } from '../../../src/units/brands.js';
import { inWords, matchBeats } from '../../tools/match-beats.js';
import { beatsByTwoAverages } from '../../tools/two-averages.js';

/** Five minutes of MIT-BIH record 208 as scipy carries them: mV at 360 Hz; null where there is no scipy. */
function recording(): Float64Array | null {
  const script =
    'import sys, warnings; warnings.simplefilter("ignore"); ' +
    'from scipy.misc import electrocardiogram; ' +
    'sys.stdout.buffer.write(electrocardiogram().astype("<f8").tobytes())';
  const { status, stdout } = spawnSync('/usr/bin/python3', ['-c', script], { maxBuffer: 2 ** 24 });
  if (status !== 0) return null;
  return new Float64Array(Uint8Array.from(stdout).buffer);
}

const samples = recording();
if (!samples) console.log('Skipped: python3 with scipy and its recording 208 is not installed.');

it.skipIf(!samples)(
  'agrees with a detector of another kind on a record of many wide beats, but for a few disputed places',
  () => {
    const lead = { label: 'II', unit: 'mV', samplingRate: hertz(360), samples: samples! };
    const found = detectBeats([lead]).map(({ time }) => time);
    const match = matchBeats(beatsByTwoAverages(samples!, 360), found);
    console.log(`Recording 208 against two moving averages: ${inWords(match)}`);
    console.log(`only here ${match.extra.map((t) => t.toFixed(2))}`);
    console.log(`only there ${match.missed.map((t) => t.toFixed(2))}`);
    // Seen in the trace: a burst of muscle noise from 28.1 to 29.7 s, withheld as a whole; the beats in it stand out all the same.
    const burst = readableSpans(lead).filter(({ readable }) => !readable);
    expect(burst).toHaveLength(1);
    expect(Math.abs(burst[0]!.from - 28.1)).toBeLessThan(0.4);
    expect(Math.abs(burst[0]!.to - 29.7)).toBeLessThan(0.4);
    const read = match.missed.filter((t) => burst.every(({ from, to }) => t < from || t > to));
    expect(read.length).toBeLessThanOrEqual(2);
    expect(match.extra.length).toBeLessThanOrEqual(6);
    // Seen in the trace: the amplifier comes back after a jolt, and the first small QRS is a beat.
    expect(match.extra.some((time) => Math.abs(time - 213.59) < 0.05)).toBe(true);
  },
);
