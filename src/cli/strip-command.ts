import { ecgSheets, PAPERS, type Paper } from '../draw/ecg/sheets.js';
import { type EcgStrip, ecgStrip } from '../draw/ecg/strip.js';
import { loadWords } from '../publish/collection.js';
import {
  DRAWING_ENDINGS,
  type DrawingEnding,
  dotsHigh,
  drawingFile,
  MOST_DOTS,
  sheetsFile,
} from '../publish/drawing-file.js';
import { writeWhole } from '../publish/write-whole.js';
import { nearest } from '../record/nearest.js';
import type { Outcome } from '../record/problem.js';
import { positive } from '../record/quantity.js';
import { SPECIES, type Species } from '../record/vocabulary.js';
import { analyseStrip } from '../signal/analyse.js';
import type { BreathLink } from '../signal/breath/link.js';
import { ecgLeads } from '../signal/ecg-lead.js';
import { readWaveform } from '../signal/files/read.js';
import { usualSwing } from '../signal/lead-size.js';
import type { Measurements } from '../signal/measures/measure.js';
import type { Measurement } from '../signal/measures/measurement.js';
import type { FoundRhythm, StripAnalysis } from '../signal/strip-analysis.js';
import type { Channel } from '../signal/waveform.js';
import type { Kilogram } from '../units/brands.js';
import { toKilogram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import type { Language } from '../words/language.js';
import { sayReasons, withSentences } from '../words/reason.js';
import { type Command, diskFor, readWords } from './command.js';
import { endProgress, showProblems, type Terminal } from './terminal.js';

/** Six seconds and a half in a row at 25 mm/s, as in the teaching page, mm. */
const DRAWING_WIDTH = 174;

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
      out: { type: 'string' },
      from: { type: 'string' },
      to: { type: 'string' },
      paper: { type: 'string' },
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
  const ending = readEnding(values.out, terminal);
  const wish = readWish(values, terminal);
  if (species === null || weight === null || rate === null || ending === null || !wish) return 2;

  const said = loadWords(diskFor(terminal));
  if (!said.ok) return showProblems(said.problems, terminal);
  const english = said.value.content.languages.get('en') as Language;
  const waveform = readWaveform(file, diskFor(terminal).readBytes, rate);
  if (!waveform.ok) return showProblems(waveform.problems, terminal);
  const leads = ecgLeads(waveform.value, values.lead ?? 'II', { file, field: '--lead' });
  if (!leads.ok) return showProblems(leads.problems, terminal);
  const analysis = analyseStrip(leads.value, {
    patient: { species, weight, ageYears: null, anesthetised: true },
    breath: waveform.value,
    pulse: waveform.value,
  });
  if (values.out !== undefined && ending !== undefined) {
    const strip = stretchToDraw(wish, leads.value[0], analysis);
    const refused = typeof strip === 'string' ? strip : whyNoPicture(strip, ending);
    if (typeof strip === 'string' || refused !== null) {
      endProgress(terminal);
      terminal.err(`thrice strip: ${refused}`);
      return 2;
    }
    const written = await writeDrawing(values.out, ending, wish.paper, strip);
    if (!written.ok) return showProblems(written.problems, terminal);
  }
  endProgress(terminal);
  terminal.out(
    values.json
      ? JSON.stringify(withSentences(analysis, english), null, 2)
      : report(file, leads.value[0], analysis, english),
  );
  return 0;
};

function readSpecies(word: string | undefined, terminal: Terminal): Species | null {
  const species = SPECIES.find((name) => name === word);
  if (species) return species;
  const close = word === undefined ? null : nearest(word, SPECIES);
  terminal.err(
    `thrice strip: --species ${word === undefined ? 'is missing' : `"${word}" is not known`}; ${close ? `did you mean "${close}"? Give` : 'give'} one of ${SPECIES.join(', ')}.`,
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

/** The ending of the drawing's name; undefined where no drawing is asked for, null where it cannot be written. */
function readEnding(out: string | undefined, terminal: Terminal): DrawingEnding | undefined | null {
  if (out === undefined) return undefined;
  const ending = DRAWING_ENDINGS.find((known) => out.toLowerCase().endsWith(known));
  if (ending) return ending;
  terminal.err(
    `thrice strip: --out "${out}" cannot be drawn; end it in ${DRAWING_ENDINGS.join(', ')}.`,
  );
  return null;
}

/** What to draw, as asked for. */
interface Wish {
  /** s; undefined for the beginning and the end. */
  readonly from: number | undefined;
  readonly to: number | undefined;
  readonly paper: Paper;
}

interface WishWords {
  readonly out?: string | undefined;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly paper?: string | undefined;
}

function readWish(words: WishWords, terminal: Terminal): Wish | null {
  const paper = PAPERS.find((name) => name.toLowerCase() === (words.paper ?? 'A4').toLowerCase());
  const from = readTime('--from', words.from, terminal);
  const to = readTime('--to', words.to, terminal);
  if (!paper) {
    terminal.err(
      `thrice strip: --paper "${words.paper}" is not known; give one of ${PAPERS.join(', ')}.`,
    );
  }
  const alone = (['from', 'to', 'paper'] as const).find((name) => words[name] !== undefined);
  if (words.out === undefined && alone) {
    terminal.err(`thrice strip: --${alone} is for the drawing; add --out with a file name.`);
    return null;
  }
  return !paper || from === null || to === null ? null : { from, to, paper };
}

/** Seconds, `90` or `90s`, or minutes and seconds, `1:30`; null where the word is neither. */
function readTime(
  option: string,
  word: string | undefined,
  terminal: Terminal,
): number | undefined | null {
  if (word === undefined) return undefined;
  const seconds = /^(\d+(?:\.\d+)?) ?s?$/.exec(word);
  if (seconds) return Number(seconds[1]);
  const both = /^(\d+):([0-5]\d(?:\.\d+)?)$/.exec(word);
  if (both) return 60 * Number(both[1]) + Number(both[2]);
  terminal.err(
    `thrice strip: ${option} "${word}" cannot be read; write seconds, like 90, or minutes and seconds, like 1:30.`,
  );
  return null;
}

/** The stretch as it is drawn, or the reason why it cannot be. */
function stretchToDraw(wish: Wish, lead: Channel, analysis: StripAnalysis): EcgStrip | string {
  const { from = 0, to = analysis.duration } = wish;
  if (from >= analysis.duration || to > analysis.duration) {
    return `the recording lasts ${roundTo(analysis.duration, 1)} s; choose --from and --to within it.`;
  }
  if (to <= from) return `--to ${to} s does not lie after --from ${from} s.`;
  return {
    samples: lead.samples,
    samplingRate: lead.samplingRate,
    from,
    to,
    beats: analysis.beats,
    unreadable: analysis.quality.spans.filter(({ readable }) => !readable),
    lead: lead.label,
    paperSpeed: 25,
    width: DRAWING_WIDTH,
    decimalMark: '.',
  };
}

/** A picture of a long stretch would be a tower that few programs open; null where it is none. */
function whyNoPicture(strip: EcgStrip, ending: DrawingEnding): string | null {
  if (ending !== '.png') return null;
  const dots = dotsHigh(ecgStrip(strip));
  if (dots <= MOST_DOTS) return null;
  const asked = strip.to - strip.from;
  const fits = Math.max(5, Math.floor((asked * 0.95 * MOST_DOTS) / dots / 5) * 5);
  const { from } = strip;
  return `${roundTo(asked, 0)} s as a PNG would be ${dots} dots high, of ${MOST_DOTS} at most; choose a stretch, such as --from ${from} --to ${from + fits}, or end --out in .pdf, which has pages.`;
}

async function writeDrawing(
  out: string,
  ending: DrawingEnding,
  paper: Paper,
  strip: EcgStrip,
): Promise<Outcome<null>> {
  const title = /^ecg/i.test(strip.lead) ? strip.lead : `ECG, lead ${strip.lead}`;
  if (ending === '.pdf') {
    const sheets = ecgSheets(strip, paper, {
      title,
      foot: 'A draft: a veterinarian reads the strip. Times count from the first sample.',
    });
    return writeWhole(out, await sheetsFile(sheets, title), 'may read');
  }
  const beats = strip.beats.filter(({ time }) => time >= strip.from && time < strip.to);
  const description = `${beats.length} beats in ${roundTo(strip.to - strip.from, 1)} s`;
  const bytes = await drawingFile(ecgStrip(strip), ending, { title, description });
  return writeWhole(out, bytes, 'may read');
}

/** mV: the QRS of a cat or dog is rarely lower; less is an idle line, or a gain that is wrong. From memory, unverified. */
const SMALL_SWING = 0.1;

function report(file: string, lead: Channel, analysis: StripAnalysis, language: Language): string {
  const swing = usualSwing(lead);
  const { duration, quality, beats, rate } = analysis;
  const lines = [
    `${file}, lead ${lead.label}, ${roundTo(duration, 1)} s`,
    `Readable  ${roundTo(quality.readable * 100, 0)} %`,
    ...quality.spans
      .filter(({ readable }) => !readable)
      .map(({ from, to, why }) => `  ${roundTo(from, 2)} to ${roundTo(to, 2)} s withheld: ${why}`),
    ...(swing > 0 && swing < SMALL_SWING
      ? [
          `Size      swings by ${Number(swing.toPrecision(2))} mV in two seconds, an ECG by some tenths and more: are its unit and gain right?`,
        ]
      : []),
    `Beats     ${beats.length}`,
  ];
  if (rate) {
    lines.push(
      `Rate      ${roundTo(rate.mean, 1)} beats/min over all that was counted`,
      `Intervals ${roundTo(rate.shortest, 3)} to ${roundTo(rate.longest, 3)} s from beat to beat`,
    );
    if (rate.shortWindow) {
      const { window, low, high } = rate.shortWindow;
      lines.push(
        `A count over ${window} s would have shown ${roundTo(low, 0)} to ${roundTo(high, 0)} beats/min`,
      );
    }
    lines.push(countingLine(rate));
  } else {
    lines.push(
      analysis.because.rate === 'beats in doubt'
        ? 'Rate      not known: what was found need not be beats'
        : 'Rate      not known: too few beats could be read',
    );
  }
  lines.push(...varying(analysis));
  lines.push(...measured(analysis.measures), breathLine(analysis.breath));
  lines.push(
    ...analysis.rhythms.flatMap((found) => rhythmLines(found, language)),
    'A draft: a veterinarian reads the strip',
  );
  return lines.join('\n');
}

/** How long to count: the time from which every longer one serves as well. */
function countingLine({ longEnough, steadyFrom }: NonNullable<StripAnalysis['rate']>): string {
  if (longEnough === null) {
    return 'No counting time within this strip keeps every count within 5 % of that rate';
  }
  if (steadyFrom === null) {
    return `Counting for just ${longEnough} s keeps every count within 5 % of that rate; some longer times do not`;
  }
  const shorter =
    steadyFrom === longEnough ? '' : `; so does just ${longEnough} s, not each between`;
  return `Counting for ${steadyFrom} s or longer keeps every count within 5 % of that rate${shorter}`;
}

/** How the intervals between sinus beats vary, and that it describes this strip only. */
function varying({ variability }: StripAnalysis): string[] {
  if (variability === null) return [];
  const { intervals, meanNn, sdnn, rmssd, pnn50 } = variability;
  const ms = (value: number) => `${roundTo(value * 1000, 0)} ms`;
  return [
    `Variation ${intervals} intervals between sinus beats: mean ${ms(meanNn)}, SDNN ${ms(sdnn)}, RMSSD ${ms(rmssd)}, pNN50 ${roundTo(pnn50 * 100, 0)} %`,
    `          ${variability.caution}`,
  ];
}

/** The measures that could be told, each beside its range for awake animals. */
function measured(measures: Measurements): string[] {
  const rows: readonly (readonly [string, Measurement])[] = [
    ['P', measures.pDuration],
    ['PR', measures.pr],
    ['QRS', measures.qrs],
    ['QT', measures.qt],
    ['R', measures.rHeight],
    ['T/R', measures.tToR],
    ['Axis', measures.axis],
  ];
  return rows.flatMap(([name, { value, unit, verdict, range }]) => {
    if (value === null) return [];
    const limits = range
      ? ` (${isPast(value, range) && verdict === 'within' ? 'at the limit of' : verdict} the awake range${span(range.low, 'from')}${span(range.high, 'to')})`
      : '';
    return [`${name.padEnd(10)}${roundTo(value, unit === 'degrees' ? 0 : 3)} ${unit}${limits}`];
  });
}

/** Past a limit by less than the tolerance within which it is not called so: the figures alone would contradict the word. */
const isPast = (value: number, { low, high }: NonNullable<Measurement['range']>): boolean =>
  (low !== null && value < low) || (high !== null && value > high);

const span = (limit: number | null, word: string) => (limit === null ? '' : ` ${word} ${limit}`);

function breathLine({ verdict, doubt, follow }: BreathLink): string {
  if (verdict === 'linked') {
    return `Breath    linked: ${roundTo((follow ?? 0) * 100, 0)} % of the swing of the intervals goes with it`;
  }
  return `Breath    ${verdict}${doubt === null ? '' : `: ${doubt}`}`;
}

/** One line for what ruled a stretch, one for its reasons, and one for each event within it. */
function rhythmLines(
  { name, from, to, confidence, possible, because, within }: FoundRhythm,
  language: Language,
): string[] {
  const sure = confidence === null ? '' : `, confidence ${roundTo(confidence * 100, 0)} %`;
  return [
    `Rhythm    ${name}, ${roundTo(from, 1)} to ${roundTo(to, 1)} s${sure}`,
    ...possible.map((what) => `          possible: ${what}`),
    `          ${sayReasons(because, language)}`,
    ...within.map(
      (event) => `          within it: ${event.name}: ${sayReasons(event.because, language)}`,
    ),
  ];
}
