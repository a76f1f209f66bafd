import { GROUPS, TRUE_NAMES, TRUE_RHYTHMS, type TrueName, type TrueRhythm } from './catalogue.js';
import { EDGES, type Edge, isWithheld, type Verdict, WAVES, type WaveName } from './judge.js';
import type { Result } from './run.js';
import { LEAD_COUNTS, LEVEL_NAMES, LEVELS, NOISES, SPECIES, type StripKey } from './strip.js';

export interface Settings {
  readonly base: number;
  readonly seeds: number;
  /** First characters of a SHA-256 over the sources of the engine. */
  readonly engine: string;
}

export interface VerdictRow {
  readonly of: string;
  readonly strips: number;
  /** By the one true name. */
  readonly right: number;
  /** By the true name and those of look-alikes that no single strip can tell from it. */
  readonly both: number;
  /** Withheld, with the true rhythm among the few that are left open. */
  readonly open: number;
  readonly withheld: number;
  readonly wrong: number;
  /** Strips that are legible for at least half of their time, and what came of these. */
  readonly readable: number;
  readonly readableRight: number;
  readonly readableBoth: number;
  readonly readableOpen: number;
}

export interface BeatRow {
  readonly of: string;
  readonly strips: number;
  readonly found: number;
  readonly missed: number;
  readonly extra: number;
  /** Share of the time that cannot be read. */
  readonly withheld: number;
}

interface EdgeRow {
  readonly of: string;
  /** Per edge: how many, mean and standard deviation of found minus true, ms. */
  readonly errors: Readonly<Record<Edge, { n: number; mean: number; sd: number }>>;
  readonly waves: Readonly<Record<WaveName, { found: number; missed: number; invented: number }>>;
}

interface ConfusionRow extends VerdictRow {
  /** What was said, most often first; events found within follow the name. */
  readonly said: readonly { name: string; verdict: Verdict; strips: number }[];
  /** Right ones whose event was found though the rhythm itself was withheld. */
  readonly rightByEvent: number;
  /** Share right, told as both, left open, withheld and wrong by level, 0 to 1. */
  readonly levels: readonly {
    right: number;
    both: number;
    open: number;
    withheld: number;
    wrong: number;
  }[];
  /** First reasons of what is neither right nor told as both, their numbers left out; most often first. */
  readonly because: readonly { text: string; strips: number }[];
  /** Strips in which an event of sinus rhythm was found that is not there; null where beats are of several kinds. */
  readonly invented: number | null;
}

export type Offender = Pick<
  StripKey,
  'rhythm' | 'species' | 'noise' | 'level' | 'seed' | 'leads'
> & { readonly said: string };

export interface SafetyRow {
  readonly of: string;
  readonly strips: number;
  readonly normal: number;
}

export interface Report {
  readonly settings: Settings;
  readonly verdicts: readonly VerdictRow[];
  readonly beats: {
    readonly groups: readonly BeatRow[];
    readonly rhythms: readonly BeatRow[];
    readonly noises: readonly BeatRow[];
  };
  readonly edges: readonly EdgeRow[];
  readonly confusion: readonly ConfusionRow[];
  readonly safety: readonly SafetyRow[];
  /** Under a normal name, or miscounted under one, though it must not be. */
  readonly offenders: readonly Offender[];
  /** Not asserted: other rhythms that the sinus node does not lead alone. */
  readonly alsoNormal: readonly SafetyRow[];
  readonly alsoOffenders: readonly Offender[];
}

type Part = readonly [label: string, chosen: (result: Result) => boolean];

const NOISE_PARTS: readonly Part[] = NOISES.flatMap((noise): Part[] =>
  noise === 'clean'
    ? [['clean', (each) => each.noise === 'clean']]
    : LEVELS.slice(1).map((level) => [
        `${noise}, ${LEVEL_NAMES[level]}`,
        (each) => each.noise === noise && each.level === level,
      ]),
);

export function reportOn(results: readonly Result[], settings: Settings): Report {
  const over = <T>(parts: readonly Part[], row: (of: string, some: readonly Result[]) => T): T[] =>
    parts.map(([of, chosen]) => row(of, results.filter(chosen)));
  const levels: Part[] = LEVELS.map((level) => [
    level === 0 ? 'clean' : `${LEVEL_NAMES[level]} noise`,
    (each) => each.level === level,
  ]);
  const species: Part[] = SPECIES.map((name) => [name, (each) => each.species === name]);
  const leads: Part[] = LEAD_COUNTS.map((count) => [
    count === 1 ? 'one lead' : `${count} leads`,
    (each) => each.leads === count,
  ]);
  const groups: Part[] = GROUPS.map((group) => [
    group,
    (each) => TRUE_RHYTHMS[each.rhythm].group === group,
  ]);
  const rhythms: Part[] = TRUE_NAMES.map((name) => [name, (each) => each.rhythm === name]);
  const all: Part = ['all strips', () => true];
  const edgeParts: Part[] = species.flatMap(([name, ofSpecies]) =>
    levels.map(
      ([level, ofLevel]): Part => [`${name}, ${level}`, (each) => ofSpecies(each) && ofLevel(each)],
    ),
  );
  return {
    settings,
    verdicts: over([all, ...levels, ...species, ...leads, ...NOISE_PARTS.slice(1)], verdictRow),
    beats: {
      groups: over([all, ...groups], beatRow),
      rhythms: over(rhythms, beatRow),
      noises: over(NOISE_PARTS, beatRow),
    },
    edges: over(edgeParts, edgeRow),
    confusion: TRUE_NAMES.map((name) =>
      confusionRow(
        name,
        results.filter(({ rhythm }) => rhythm === name),
      ),
    ),
    ...safety(results),
  };
}

function verdictRow(of: string, some: readonly Result[]): VerdictRow {
  const count = (verdict: Verdict): number =>
    some.filter((each) => each.verdict === verdict).length;
  const readable = some.filter((each) => each.legible >= 0.5);
  return {
    of,
    strips: some.length,
    right: count('right'),
    both: count('both'),
    open: count('open'),
    withheld: count('withheld'),
    wrong: count('wrong'),
    readable: readable.length,
    readableRight: readable.filter(({ verdict }) => verdict === 'right').length,
    readableBoth: readable.filter(({ verdict }) => verdict === 'both').length,
    readableOpen: readable.filter(({ verdict }) => verdict === 'open').length,
  };
}

function beatRow(of: string, some: readonly Result[]): BeatRow {
  const sum = (value: (result: Result) => number): number =>
    some.reduce((total, each) => total + value(each), 0);
  return {
    of,
    strips: some.length,
    found: sum(({ beats }) => beats.found),
    missed: sum(({ beats }) => beats.missed),
    extra: sum(({ beats }) => beats.extra),
    withheld: rounded(sum(({ readable }) => 1 - readable) / some.length, 4),
  };
}

function edgeRow(of: string, some: readonly Result[]): EdgeRow {
  const errorsAt = (edge: Edge) => {
    const values = some.flatMap(({ errors }) => errors[edge]);
    const n = values.length;
    const mean = values.reduce((sum, value) => sum + value, 0) / n;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return { n, mean: rounded(mean, 1), sd: rounded(Math.sqrt(squares / n), 1) };
  };
  const countOf = (name: WaveName) => {
    const sum = (what: 'found' | 'missed' | 'invented') =>
      some.reduce((total, { waves }) => total + waves[name][what], 0);
    return { found: sum('found'), missed: sum('missed'), invented: sum('invented') };
  };
  return {
    of,
    errors: Object.fromEntries(EDGES.map((edge) => [edge, errorsAt(edge)])) as EdgeRow['errors'],
    waves: Object.fromEntries(WAVES.map((name) => [name, countOf(name)])) as EdgeRow['waves'],
  };
}

function confusionRow(name: TrueName, some: readonly Result[]): ConfusionRow {
  const entry: TrueRhythm = TRUE_RHYTHMS[name];
  const said = tally(some, (each) => `${each.verdict}|${labelOf(each)}`).map(([key, strips]) => {
    const [verdict = '', label = ''] = key.split('|');
    return { name: label, verdict: verdict as Verdict, strips };
  });
  const because = tally(
    some.filter(
      ({ verdict, because }) => (verdict === 'withheld' || verdict === 'open') && because !== null,
    ),
    (each) => (each.because ?? '').replace(/\d+(\.\d+)?/g, '#'),
  ).map(([text, strips]) => ({ text, strips }));
  const expected: readonly string[] = entry.events ?? [];
  return {
    ...verdictRow(name, some),
    said,
    rightByEvent: some.filter(({ verdict, said }) => verdict === 'right' && isWithheld(said))
      .length,
    levels: LEVELS.map((level) => {
      const row = verdictRow(
        '',
        some.filter((each) => each.level === level),
      );
      const share = (count: number): number => rounded(count / row.strips, 4);
      return {
        right: share(row.right),
        both: share(row.both),
        open: share(row.open),
        withheld: share(row.withheld),
        wrong: share(row.wrong),
      };
    }),
    because: because.slice(0, 4),
    invented:
      entry.danger === 'sinus' && entry.group !== 'ventricular beats in sinus rhythm'
        ? some.filter(({ events }) => events.some((event) => !expected.includes(event))).length
        : null,
  };
}

const labelOf = ({ said, events }: Result): string =>
  events.length > 0 ? `${said} + ${events.toSorted().join(' + ')}` : said;

function tally(some: readonly Result[], key: (result: Result) => string): [string, number][] {
  const counts = new Map<string, number>();
  for (const each of some) counts.set(key(each), (counts.get(key(each)) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
}

export const isOffender = (each: Result): boolean =>
  each.miscounted ||
  (TRUE_RHYTHMS[each.rhythm].danger === 'never normal' && each.normal.length > 0);

function safety(
  results: readonly Result[],
): Pick<Report, 'safety' | 'offenders' | 'alsoNormal' | 'alsoOffenders'> {
  const row = (of: string, some: readonly Result[], bad: (each: Result) => boolean): SafetyRow => ({
    of,
    strips: some.length,
    normal: some.filter(bad).length,
  });
  const of = (name: TrueName): Result[] => results.filter(({ rhythm }) => rhythm === name);
  const named = (danger: TrueRhythm['danger']): TrueName[] =>
    TRUE_NAMES.filter((name) => TRUE_RHYTHMS[name].danger === danger);
  const isAlso = (each: Result): boolean =>
    TRUE_RHYTHMS[each.rhythm].danger === 'not normal' && each.normal.length > 0;
  const tall: TrueName = 'sinus rhythm, tall T';
  return {
    safety: [
      ...named('never normal').map((name) => row(name, of(name), isOffender)),
      row('counted wrongly: sinus rhythm with a tall T', of(tall), isOffender),
      row(
        'counted wrongly: other rhythms led by the sinus node',
        results.filter(({ rhythm }) => rhythm !== tall && TRUE_RHYTHMS[rhythm].danger === 'sinus'),
        isOffender,
      ),
    ],
    offenders: results.filter(isOffender).map(offender),
    alsoNormal: named('not normal').map((name) => row(name, of(name), isAlso)),
    alsoOffenders: results.filter(isAlso).map(offender),
  };
}

const offender = ({ rhythm, species, noise, level, seed, leads, normal, miscounted }: Result) => ({
  rhythm,
  species,
  noise,
  level,
  seed,
  leads,
  said: `${normal.join(', ')}${miscounted ? ' (beats counted wrongly)' : ''}`,
});

/** A number that JSON can hold; null would be read as 0. */
function rounded(value: number, digits: number): number {
  return Number.isFinite(value) ? Number(value.toFixed(digits)) : 0;
}
