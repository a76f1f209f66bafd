import type { Annotation } from '../waveform.js';

/**
 * A remark that names the start of one breath: `breath`, `Breath 12`, `start of inspiration`,
 * `inspiration begins`, or the same in Spanish. Remarks about breathing at large ("breathing by
 * itself", "breath held", "ventilator on 10/min") and about breathing out name no start.
 */
const ONE_BREATH =
  /^(?:(?:start|begin|onset) of (?:a |the )?)?(?:breath|inspiration|inhalation)(?: (?:start|starts|begin|begins|onset))?(?: ?#?\d+)?$/;
const ONE_BREATH_ES =
  /^(?:(?:inicio|comienzo) de (?:la )?)?(?:respiraci[oó]n|inspiraci[oó]n|inhalaci[oó]n)(?: ?#?\d+)?$/;

/** Starts of inspiration among the remarks of a file, s, ascending, each once. */
export function statedBreaths(annotations: readonly Annotation[]): number[] {
  const starts = annotations
    .filter(({ text }) => {
      const plain = text
        .trim()
        .toLowerCase()
        .replace(/[.:]+$/, '');
      return ONE_BREATH.test(plain) || ONE_BREATH_ES.test(plain);
    })
    .map(({ onset }) => onset as number);
  return [...new Set(starts)].sort((a, b) => a - b);
}
