import { type EcgStrip, gain } from './row.js';

/** No row is taller than this, in mm; what goes beyond is marked with its height in mV. */
const tallestRow = 40;
/**
 * Lowest and highest mV of the paper, in whole half-millivolts, the same for every row so that rows compare.
 * When the trace needs more than the tallest row, the side that strays further from the median is cut first.
 */
export function amplitudeWindow(strip: EcgStrip): readonly [number, number] {
  const first = Math.max(0, Math.ceil(strip.from * strip.samplingRate));
  const shown = strip.samples
    .subarray(first, Math.floor(strip.to * strip.samplingRate) + 1)
    .filter((value, i) => {
      const time = (first + i) / strip.samplingRate;
      return (
        Number.isFinite(value) && !strip.unreadable.some((s) => time >= s.from && time <= s.to)
      );
    })
    .sort();
  const median = shown[shown.length >> 1] ?? 0;
  let low = Math.floor(((shown[0] ?? 0) - 0.1) * 2) / 2;
  let high = Math.ceil(((shown.at(-1) ?? 0) + 0.1) * 2) / 2;
  while (high - low < 2) {
    if (high - median <= median - low) high += 0.5;
    else low -= 0.5;
  }
  while ((high - low) * gain > tallestRow) {
    if (high - median > median - low) high -= 0.5;
    else low += 0.5;
  }
  return [low, high];
}
