/** Sample positions `from` (included) to `to` (excluded). */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** The unbroken stretches of finite samples, in order. */
export function finiteRuns(samples: Float64Array): Run[] {
  const runs: Run[] = [];
  for (let from = 0; from < samples.length; from++) {
    let to = from;
    while (to < samples.length && Number.isFinite(samples[to])) to++;
    if (to > from) runs.push({ from, to });
    from = to;
  }
  return runs;
}

/** The unbroken stretches of samples that are not finite, in order. */
export function gaps(samples: Float64Array): Run[] {
  const found: Run[] = [];
  let from = 0;
  for (const run of [...finiteRuns(samples), { from: samples.length, to: samples.length }]) {
    if (run.from > from) found.push({ from, to: run.from });
    from = run.to;
  }
  return found;
}

/** The unbroken stretches of at least `least` samples that all equal `value`, in order. */
export function runsOf(value: number, samples: Float64Array, least: number): Run[] {
  const runs: Run[] = [];
  for (let from = 0; from < samples.length; from++) {
    let to = from;
    while (to < samples.length && samples[to] === value) to++;
    if (to - from >= least) runs.push({ from, to });
    from = to;
  }
  return runs;
}
