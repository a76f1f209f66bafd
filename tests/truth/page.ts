import { TRUE_NAMES, TRUE_RHYTHMS, type TrueRhythm } from './catalogue.js';
import { EDGES, WAVES } from './judge.js';
import type { BeatRow, Offender, Report, SafetyRow, VerdictRow } from './report.js';
import { DURATION, HISS, LEVEL_NAMES, SAMPLING_RATE } from './strip.js';
import { TOLERANCES, TOLERANCES_SOURCE } from './tolerances.js';

/** The truth page, from the numbers alone. */
export function truthPage(report: Report): string {
  return [
    ...opening(report),
    ...verdicts(report),
    ...safety(report),
    ...confusion(report),
    ...beats(report),
    ...waves(report),
    ...strips(report),
  ].join('\n');
}

function opening({ settings, verdicts, offenders }: Report): string[] {
  const all = verdicts[0]!;
  return [
    '# What the ECG engine gets right',
    '',
    'Written by `npm run truth`; do not edit. A generator draws strips whose every beat, wave and rhythm is known; the engine reads them; this page counts what came of it. The strips are made, not recorded: they show what the method can and cannot do, not how often it is right in a clinic.',
    '',
    `${all.strips} strips of ${DURATION} s: ${TRUE_NAMES.length} rhythms, dog and cat, clean and 5 noises of 3 levels, seeds 1 to ${settings.seeds} of base ${settings.base}, three leads and one lead. Engine sources ${settings.engine}.`,
    '',
    `**Of the ${all.readable} legible strips ${share(all.readableRight + all.readableBoth, all.readable)} told rightly: ${share(all.readableRight, all.readable)} by the one true name, ${share(all.readableBoth, all.readable)} by naming it together with what no single strip can tell from it, and nothing else. Counted strictly, by the one true name alone, it is ${share(all.readableRight, all.readable)}. ${share(all.readableOpen, all.readable)} were left open between the truth and one or two others, though the strip held what decides; ${share(all.readable - all.readableRight - all.readableBoth - all.readableOpen, all.readable)} were withheld or wrong. Of all strips ${share(all.right + all.both, all.strips)} told rightly (${share(all.right, all.strips)} by the one true name), ${share(all.open, all.strips)} left open, ${share(all.withheld, all.strips)} withheld, ${share(all.wrong, all.strips)} wrong; of those that were named ${share(all.right, all.right + all.wrong)} right. Dangerous rhythms under a normal name: ${offenders.length}.**`,
    '',
  ];
}

function verdicts({ verdicts }: Report): string[] {
  return [
    '## Rhythm: right, told as both, left open, withheld, wrong',
    '',
    'A strip is **right** where the rhythm that rules most of its readable time bears the true name; for a truth that is an event within sinus rhythm (premature beats, runs, pauses), where the event is found within, or where no event lies in what was named and sinus rhythm is told. It is **told as both** where it bears no name because no single strip can tell the truth from its look-alike, and what is said to be possible is these and nothing else (which truths that is, and why, stands under *Told as both*). It is **left open** where it bears no name and the true one is among the few that are said to be possible, but others are that the strip rules out, or where an event is told as one of two that look the same (wide beats on time: fusion beats or a blocked branch of the bundle). It is **withheld** where most of the readable time is `cannot be told`, or nothing is readable. It is **wrong** otherwise. *Of the named*: right among right and wrong. A strip is **legible**, whatever the engine made of it, where for at least half of the time one lead has noise (root mean square over 0.2 s, less its slow part) of under a third of the height of P.',
    '',
    ...table(
      [
        'strips',
        'count',
        'right',
        'told as both',
        'left open',
        'withheld',
        'wrong',
        'right of the named',
        'legible',
        'right of the legible',
        'right or told as both of the legible',
      ],
      verdicts.map((row) => [
        row.of,
        String(row.strips),
        share(row.right, row.strips),
        share(row.both, row.strips),
        share(row.open, row.strips),
        share(row.withheld, row.strips),
        share(row.wrong, row.strips),
        share(row.right, row.right + row.wrong),
        String(row.readable),
        share(row.readableRight, row.readable),
        share(row.readableRight + row.readableBoth, row.readable),
      ]),
    ),
    '',
    ...toldAsBoth(),
  ];
}

/** Why some truths are rightly told by two names. */
function toldAsBoth(): string[] {
  return [
    '### Told as both',
    '',
    'What a strip can rightly be said to show is what the voltages in it support. Where two hearts draw the same strip, to name one of them is a guess even when it hits, and a guess that hurts when it does not; the right answer is the pair, and what to do to tell them apart. That holds of the truths below and of no other. It is not granted where the engine adds a third name that the strip rules out, nor where the strip holds what decides: those are counted as left open.',
    '',
    '- **Asystole, the ECG alone.** A heart without current and an electrode without contact both draw a line at rest. Pulse, pressure or capnogram decide, and none is recorded with these strips. Right: asystole, or a lead that came off. With another channel the engine names the one (`tests/signal/pulse`).',
    '- **Atrial tachycardia, 2:1, each second P one with T or in a QRS** (from the plan: it touches the QRS, or lies within a quarter of the length of T from its summit, or no dip parts the two). It shows one P to a beat and a T that is a little taller, or a QRS that is a little wider, than some T or QRS that the patient would have without it; nobody knows that one. Bix taught to suspect it, and to prove it by slowing the conduction (from memory, unverified). Right: a sinus rhythm, or atrial tachycardia or flutter of which each second wave is conducted; where the other P hides as well, a junctional rhythm beside them. So too where the other P begins before T is over: at equal intervals nothing tells it from the second summit, or the second phase, of a notched or biphasic T, such as healthy dogs have (common practice), and then the strip shows no P. Where about each second P stands clear of both and the atria are faster than a sinus node goes (220 beats/min in a dog, 280 in a cat; common practice) the engine must name it. Where they are slower all P waves are seen and the cause is not: right is atrial tachycardia, or a second-degree block of every second beat.',
    '- **Atrial flutter, 2:1.** Of two waves to a beat QRS and T cover one; the other is a hump before each QRS, as a P is, or so flat that none is seen. Right: the two names above, and beside them a junctional rhythm, which shows no P.',
    '',
    'Sinus rhythm with a tall T is not among them. It may hide a P as well, but its intervals are never quite equal, and where they vary a P that is not conducted keeps the time of the atria, while T keeps that of the ventricles: what does not move against T is no P (`src/signal/rhythm/evidence/clocked-p.ts`). So it must be named. The atria of these strips fire at a constant distance from R in 2:1 conduction, with intervals that vary by 0.4 %, too little for that test to be used at all; `tests/signal/rhythm/evidence/clocked-p.test.ts` holds it to atria whose every interval varies by itself; where they vary so much that an average of the cycles blurs such a P, it is sought in each cycle by itself (`loose-p.ts`, with its test: 6 to 10 %).',
    '',
  ];
}

function safety({ safety, offenders, alsoNormal, alsoOffenders, settings }: Report): string[] {
  const rows = (some: readonly SafetyRow[]): string[] =>
    table(
      ['true rhythm', 'strips', 'under a normal name'],
      some.map(({ of, strips, normal }) => [of, String(strips), String(normal)]),
    );
  return [
    '## Safety',
    '',
    'Any stretch of the strip, however short, under the name of any sinus rhythm (bradycardia, tachycardia and breath-linked ones too) counts. Each number must be 0. *Counted wrongly*: a stretch under a normal name in which 30 % or more of the beats are missing or doubled.',
    '',
    ...rows(safety),
    '',
    ...offenderLines(offenders, settings.base),
    'Other rhythms that a normal name would hide. A stretch without a dropped beat or with a PR at the edge may look normal, so these are counted and not demanded:',
    '',
    ...rows(alsoNormal),
    '',
    ...offenderLines(alsoOffenders, settings.base),
  ];
}

/** More than this many would hide the table; the JSON holds all. */
const MOST_LINES = 60;

function offenderLines(offenders: readonly Offender[], base: number): string[] {
  if (offenders.length === 0) return [];
  const left = offenders.length - MOST_LINES;
  return [
    ...offenders.slice(0, MOST_LINES).map((each) => `- \`${rerun(each, base)}\`: ${each.said}`),
    ...(left > 0 ? [`- and ${left} more in \`truth.json\``] : []),
    '',
  ];
}

/** The options that read this one strip again. */
export function rerun(each: Omit<Offender, 'said'>, base: number): string {
  const { rhythm, species, noise, level, seed, leads } = each;
  const noisy = noise === 'clean' ? '--noise clean' : `--noise ${noise} --level ${level}`;
  return `npm run truth -- --base ${base} --rhythm '${rhythm}' --species ${species} ${noisy} --seed ${seed} --leads ${leads}`;
}

function confusion({ confusion }: Report): string[] {
  const sayings = (row: (typeof confusion)[number], verdict: string): string =>
    row.said
      .filter((each) => each.verdict === verdict)
      .map(({ name, strips }) => `${name} ${strips}`)
      .join('; ');
  return [
    '## Rhythm: what was said of which truth',
    '',
    'What was said is the name of most of the readable time, with the events found anywhere in the strip after a plus sign. *Of it by event*: right because the event was found, though the rhythm itself was withheld.',
    '',
    ...table(
      [
        'true rhythm',
        'strips',
        'right',
        'of it by event',
        'told as both',
        'left open',
        'withheld',
        'wrong',
        'right or told as both of the legible',
        'said, where wrong',
      ],
      confusion.map((row) => [
        row.of,
        String(row.strips),
        share(row.right, row.strips),
        row.rightByEvent > 0 ? share(row.rightByEvent, row.strips) : '',
        row.both > 0 ? share(row.both, row.strips) : '',
        share(row.open, row.strips),
        share(row.withheld, row.strips),
        share(row.wrong, row.strips),
        share(row.readableRight + row.readableBoth, row.readable),
        sayings(row, 'wrong'),
      ]),
    ),
    '',
    '### By level of noise',
    '',
    'Right / told as both / left open / withheld / wrong, % of the strips.',
    '',
    ...table(
      ['true rhythm', ...LEVEL_NAMES],
      confusion.map(({ of, levels }) => [
        of,
        ...levels.map(({ right, both, open, withheld, wrong }) =>
          [right, both, open, withheld, wrong].map((value) => Math.round(100 * value)).join(' / '),
        ),
      ]),
    ),
    '',
    '### Why it was left open or withheld',
    '',
    'The first reason of the longest stretch that bears no name; # stands for a number.',
    '',
    ...table(
      ['true rhythm', 'left open', 'withheld', 'first reasons'],
      confusion
        .filter(({ open, withheld }) => open + withheld > 0)
        .map(({ of, open, withheld, because }) => [
          of,
          String(open),
          String(withheld),
          because.map(({ text, strips }) => `${text} (${strips})`).join('; '),
        ]),
    ),
    '',
    '### Events that are not there',
    '',
    'Strips led by the sinus node without beats from the ventricles, in which premature beats, a run or a pause was found that the plan does not hold.',
    '',
    ...table(
      ['true rhythm', 'strips', 'with such an event'],
      confusion.flatMap(({ of, strips, invented }) =>
        invented === null ? [] : [[of, String(strips), String(invented)]],
      ),
    ),
    '',
  ];
}

function beats({ beats }: Report): string[] {
  const rows = (some: readonly BeatRow[], head: string): string[] =>
    table(
      [head, 'strips', 'true beats', 'sensitivity', '+P', 'extra beats', 'time withheld'],
      some.map(({ of, strips, found, missed, extra, withheld }) => [
        of,
        String(strips),
        String(found + missed),
        share(found, found + missed, 2),
        found + missed > 0 ? share(found, found + extra, 2) : '',
        String(extra),
        share(withheld, 1),
      ]),
    );
  return [
    '## Beats',
    '',
    'Found within 150 ms of a true beat (window after ANSI/AAMI EC57), in readable time only; a true beat counts as missed where all of its window can be read. *Time withheld*: share of the time that no lead shows readably.',
    '',
    ...rows(beats.groups, 'rhythms'),
    '',
    ...rows(beats.rhythms, 'rhythm'),
    '',
    ...rows(beats.noises, 'noise'),
    '',
  ];
}

function waves({ edges }: Report): string[] {
  return [
    '## Waves',
    '',
    'Found minus true, ms, mean and standard deviation, over the waves of found beats in readable time. The true edge of a wave is where it has fallen to 5 % of its height, in which two readers may differ; a constant mean is that difference, the standard deviation is the error. The last line is the tolerance for the standard deviation.',
    '',
    ...table(
      ['strips', ...EDGES],
      [
        ...edges.map(({ of, errors }) => [
          of,
          ...EDGES.map((edge) => {
            const { n, mean, sd } = errors[edge];
            return n > 0 ? `${mean.toFixed(1)} ± ${sd.toFixed(1)}` : '';
          }),
        ]),
        ['tolerance', ...EDGES.map((edge) => TOLERANCES[edge].toFixed(1))],
      ],
    ),
    '',
    `Tolerances: ${TOLERANCES_SOURCE}`,
    '',
    'Found: its peak lies within the true wave. Missed: none there, of the true waves. Invented: one where none is, of the waves found; a P that belongs to no beat (block) is not invented.',
    '',
    ...table(
      [
        'strips',
        ...WAVES.flatMap((name) => [`${name} found`, `${name} missed`, `${name} invented`]),
      ],
      edges.map(({ of, waves }) => [
        of,
        ...WAVES.flatMap((name) => {
          const { found, missed, invented } = waves[name];
          return [
            share(found, found + missed),
            share(missed, found + missed),
            share(invented, found + invented),
          ];
        }),
      ]),
    ),
    '',
  ];
}

function strips({ settings }: Report): string[] {
  const rates = ([low, high]: readonly [number, number]): string =>
    high > 0 ? `${low}-${high}` : '';
  return [
    '## The strips',
    '',
    `${SAMPLING_RATE} Hz, leads II, I and aVF or II alone, on a recorder's hiss of ${1000 * HISS} µV (root mean square). Three leads and one lead look at the same heart. Jolts and bursts of electrosurgery strike all leads at once, each with a strength of its own; other noise is each lead's own. Breaths are given as remarks of the file. The patient is an anesthetised adult dog of 12 kg or cat of 4 kg. The rate of a strip is drawn evenly from the range below.`,
    '',
    `Each strip's stream of numbers comes from the base (${settings.base}), rhythm, species, noise, level and seed (1 to ${settings.seeds}): \`npm run truth -- --base N\` gives strips that nobody has seen.`,
    '',
    ...table(
      ['true rhythm', 'dog, beats/min', 'cat, beats/min', 'right where it says'],
      TRUE_NAMES.map((name) => {
        const entry: TrueRhythm = TRUE_RHYTHMS[name];
        const { names, events, rates: range, counting } = entry;
        const what = counting ? ` ${counting}` : '';
        return [
          name,
          rates(range.dog) + (range.dog[1] > 0 ? what : ''),
          rates(range.cat) + (range.cat[1] > 0 ? what : ''),
          events ? `within: ${events.join(' or ')}` : names.join(' or '),
        ];
      }),
    ),
    '',
    'Atrial tachycardia conducted 2:1: every second P leads to a beat, the other comes half an interval later, within half a T of its summit (*P in T*) or farther from it (*P beside T*). Its intervals vary by 0.4 %, those of sinus rhythm by 1.2 %: a choice of the generator, no clinical number.',
    '',
  ];
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map((_, i) => (i === 0 ? '---' : '---:'))), ...rows.map(line)];
}

function share(part: number, whole: number, digits = 1): string {
  return whole > 0 ? `${((100 * part) / whole).toFixed(digits)} %` : '';
}

/** The first lines for the console. */
export function inShort({ verdicts, safety, offenders, settings }: Report): string {
  const line = (row: VerdictRow): string =>
    `${row.of.padEnd(26)}${String(row.strips).padStart(6)} strips  right ${share(row.right, row.strips)}  both ${share(row.both, row.strips)}  open ${share(row.open, row.strips)}  withheld ${share(row.withheld, row.strips)}  wrong ${share(row.wrong, row.strips)}  of named ${share(row.right, row.right + row.wrong)}  of legible ${share(row.readableRight, row.readable)} + ${share(row.readableBoth, row.readable)} both + ${share(row.readableOpen, row.readable)} open`;
  return [
    ...verdicts.filter(({ strips }) => strips > 0).map(line),
    `safety: ${safety.reduce((sum, { normal }) => sum + normal, 0)} offenders in ${safety.reduce((sum, { strips }) => sum + strips, 0)} strips`,
    ...offenders.slice(0, 20).map((each) => `  ${rerun(each, settings.base)}: ${each.said}`),
  ].join('\n');
}
