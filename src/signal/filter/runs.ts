/** Sample positions `from` (included) to `to` (excluded). */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** The unbroken stretches of finite samples, in order. */
export function finiteRuns(samples: Float64Array): Run[] {
  return split(samples).finite;
}

/** The unbroken stretches of samples that are not finite, in order. */
export function gaps(samples: Float64Array): Run[] {
  return split(samples).gaps;
}

function split(samples: Float64Array): { finite: Run[]; gaps: Run[] } {
  const finite: Run[] = [];
  const gaps: Run[] = [];
  let from = 0;
  let inside = Number.isFinite(samples[0]);
  for (let i = 1; i <= samples.length; i++) {
    if (i < samples.length && Number.isFinite(samples[i]) === inside) continue;
    (inside ? finite : gaps).push({ from, to: i });
    from = i;
    inside = !inside;
  }
  return { finite, gaps };
}

/** The unbroken stretches of at least `least` samples that all equal `value`, in order. */
export function runsOf(value: number, samples: Float64Array, least: number): Run[] {
  const runs: Run[] = [];
  let from = 0;
  for (let i = 0; i <= samples.length; i++) {
    if (samples[i] === value) continue;
    if (i - from >= least) runs.push({ from, to: i });
    from = i + 1;
  }
  return runs;
}
