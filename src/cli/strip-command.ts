import { positive } from '../record/quantity.js';
import { SPECIES, type Species } from '../record/vocabulary.js';
import { analyseStrip } from '../signal/analyse.js';
import { ecgLead } from '../signal/ecg-lead.js';
import { readWaveform } from '../signal/files/read.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';
import type { Kilogram } from '../units/brands.js';
import { toKilogram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import { type Command, diskFor, readWords } from './command.js';
import { endProgress, showProblems, type Terminal } from './terminal.js';

export const stripCommand: Command = async (words, terminal) => {
  const read = readWords(
    'strip',
    words,
    {
      species: { type: 'string' },
      weight: { type: 'string' },
      lead: { type: 'string' },
      'sampling-rate': { type: 'string' },
      json: { type: 'boolean' },
    },
    { least: 1, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const { values } = read;
  const file = read.positionals[0] as string;
  const species = readSpecies(values.species, terminal);
  const weight = readWeight(values.weight, terminal);
  const rate = readRate(values['sampling-rate'], terminal);
  if (species === null || weight === null || rate === null) return 2;

  const waveform = readWaveform(file, diskFor(terminal).readBytes, rate);
  if (!waveform.ok) return showProblems(waveform.problems, terminal);
  const lead = ecgLead(waveform.value, values.lead ?? 'II', { file, field: '--lead' });
  if (!lead.ok) return showProblems(lead.problems, terminal);
  const analysis = analyseStrip([lead.value], { species, weight });
  endProgress(terminal);
  terminal.out(
    values.json ? JSON.stringify(analysis, null, 2) : report(file, lead.value.label, analysis),
  );
  return 0;
};

function readSpecies(word: string | undefined, terminal: Terminal): Species | null {
  const species = SPECIES.find((name) => name === word);
  if (species) return species;
  terminal.err(
    `thrice strip: --species ${word === undefined ? 'is missing' : `"${word}" is not known`}; give one of ${SPECIES.join(', ')}.`,
  );
  return null;
}

function readWeight(word: string | undefined, terminal: Terminal): Kilogram | null {
  const weight = positive(['kg', 'lb', 'g'], 'the body weight').safeParse(word);
  if (weight.success) return toKilogram(weight.data.value, weight.data.unit);
  terminal.err(
    `thrice strip: --weight ${word === undefined ? 'is missing' : `"${word}" cannot be read`}; write it like 18kg or 40lb.`,
  );
  return null;
}

/** The option for the reader; null where the word cannot be read. */
function readRate(word: string | undefined, terminal: Terminal): { samplingRate?: number } | null {
  if (word === undefined) return {};
  const samplingRate = Number(word);
  if (samplingRate > 0 && Number.isFinite(samplingRate)) return { samplingRate };
  terminal.err(
    `thrice strip: --sampling-rate "${word}" cannot be read; write samples per second, like 250.`,
  );
  return null;
}

function report(
  file: string,
  lead: string,
  { duration, quality, beats, rate }: StripAnalysis,
): string {
  const lines = [
    `${file}, lead ${lead}, ${roundTo(duration, 1)} s`,
    `Readable  ${roundTo(quality.readable * 100, 0)} %`,
    ...quality.spans
      .filter(({ readable }) => !readable)
      .map(({ from, to, why }) => `  ${roundTo(from, 2)} to ${roundTo(to, 2)} s withheld: ${why}`),
    `Beats     ${beats.length}`,
  ];
  if (rate) {
    lines.push(
      `Rate      ${roundTo(rate.mean, 1)} beats/min over the whole strip`,
      `Intervals ${roundTo(rate.shortest, 3)} to ${roundTo(rate.longest, 3)} s from beat to beat`,
    );
    if (rate.shortWindow) {
      const { window, low, high } = rate.shortWindow;
      lines.push(
        `A count over ${window} s would have shown ${roundTo(low, 0)} to ${roundTo(high, 0)} beats/min`,
      );
    }
    lines.push(
      rate.longEnough === null
        ? 'No counting time within this strip keeps every count within 5 % of that rate'
        : `Counting for ${rate.longEnough} s keeps every count within 5 % of that rate`,
    );
  } else {
    lines.push('Rate      not known: too few beats could be read');
  }
  lines.push('Rhythm    not named; a veterinarian reads the strip');
  return lines.join('\n');
}
