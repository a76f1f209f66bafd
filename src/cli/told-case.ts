import { Temporal } from 'temporal-polyfill';
import {
  type AsNeededFacts,
  type CaseFacts,
  type DrugGiven,
  type FormularyCheck,
  goesHome,
  type HomeCase,
  type HomeMedicine,
  type MedicineFacts,
  type ShownRate,
  type StripFacts,
} from '../facts/case-facts.js';
import { dosePerKilogram } from '../facts/dose-per-kilogram.js';
import type { Stated } from '../facts/fact.js';
import type { Span } from '../record/formulary-schema.js';
import type { Warning } from '../record/problem.js';
import { PROBLEM_NUMBERS } from '../record/problem-kind.js';
import { roundTo } from '../units/round.js';
import { isApart } from '../vitals/clock-skew.js';
import { twoDigits } from '../words/numbers.js';

/**
 * What a veterinarian checks of a case by eye, in lines: patient, medicines, days, what the record is asked about, rhythm.
 * Doses per kilogram have two digits, as on the documents.
 */
export const toldCase = (facts: CaseFacts): string[] => [
  ...patient(facts),
  ...(goesHome(facts)
    ? part('Medicines for home', [
        ...facts.home.medicines.flatMap(medicine),
        ...facts.home.asNeeded.flatMap(asNeeded),
      ])
    : []),
  ...part('Given in the clinic', rows(facts.anesthesia.drugs.map((drug) => given(drug, facts)))),
  ...(goesHome(facts) ? part('Days', rows(days(facts))) : []),
  ...part('Warnings', facts.warnings.flatMap(warning)),
  ...part('Rhythm', [...facts.strips.flatMap(rhythm), ...clocks(facts)]),
];

const part = (title: string, lines: readonly string[]): string[] => [
  '',
  title,
  ...(lines.length === 0 ? ['  none'] : lines.map((line) => `  ${line}`)),
];

/** Cells of a table, the columns as wide as they must be. */
function rows(cells: readonly (readonly string[])[]): string[] {
  const widths = cells.reduce<number[]>(
    (widest, row) => row.map((cell, index) => Math.max(cell.length, widest[index] ?? 0)),
    [],
  );
  return cells.map((row) =>
    row
      .map((cell, index) => cell.padEnd(widths[index] as number))
      .join('  ')
      .trimEnd(),
  );
}

function patient(facts: CaseFacts): string[] {
  const { identity, patient: of, surgery } = facts;
  const ended = goesHome(facts)
    ? `home at ${moment(facts.surgery.discharge.value)}`
    : `died at ${moment(facts.death.at.value)}`;
  const sheet = goesHome(facts) ? `sheet in ${identity.owner.language}` : 'no sheet';
  const sex = `${of.neutered.value ? 'neutered ' : ''}${of.sex.value}`;
  const { count, unit } = of.age.value;
  return [
    `${identity.patientName}, record ${identity.record}, of ${identity.owner.name} (${sheet})`,
    `${of.species.value}, ${of.breed.value}, ${sex}, ${aged(roundTo(count, 1), unit)}, ${roundTo(of.weight.value, 2)} kg`,
    `${surgery.procedure.value} on ${day(surgery.date.value)}, by ${identity.surgeon}; ${ended}`,
  ];
}

/** `1 year`, `2 years`; units of an age are written in the plural. */
const aged = (count: number, unit: string): string =>
  `${count} ${count === 1 ? unit.slice(0, -1) : unit}`;

function medicine(of: MedicineFacts): string[] {
  const { rhythm, doses } = of;
  const all = doses.value;
  const said = rhythm.kind === 'every' ? `every ${rhythm.hours} h` : rhythm.times.join(' and ');
  return [
    headed(of),
    ...rows([
      eachTime(of),
      ['  hours', `${said}${inDay(of)}`],
      inClinic(of),
      [
        '  first',
        `${moment(all[0] as string)}${of.exactFirst ? `, rounded up from ${moment(of.exactFirst.value)}` : ''}`,
      ],
      ['  last', `${moment(all.at(-1) as string)}, dose ${all.length} of ${all.length}`],
      ['  handed out', `${handedOut(of)}${ofNeeded(of, 'needed')}`],
      ['  checked', checkedHome(of.checked)],
    ]),
  ];
}

function asNeeded(of: AsNeededFacts): string[] {
  const { sign, apart, mostInDay, mostInAll, mostDoses, notBefore, until, enoughFor } = of;
  const inAll = mostInAll.value === null ? '' : `, ${doses(mostInAll.value)} in all`;
  const most = doses(mostDoses.value);
  return [
    `${headed(of)}, as needed`,
    ...rows([
      ['  only if', sign.value],
      eachTime(of),
      [
        '  limits',
        `at least ${roundTo(apart.value, 2)} h apart, at most ${doses(mostInDay.value)} in 24 h${inAll}${inDay(of)}`,
      ],
      inClinic(of),
      ['  not before', moment(notBefore.value)],
      ['  last day', `${day(until.value)}; room for ${most}`],
      [
        '  handed out',
        `${handedOut(of)}${ofNeeded(of, `for ${most}`)}${enoughFor.value === null ? '' : `; enough for ${enoughFor.value}`}`,
      ],
      ['  checked', checkedHome(of.checked)],
    ]),
  ];
}

const doses = (count: number): string => `${count} ${count === 1 ? 'dose' : 'doses'}`;

const headed = ({ drug, strength, route, food, purpose }: HomeMedicine): string =>
  `${drug} ${strength}, ${route}, ${food === 'either' ? 'with or without food' : food}, for ${purpose}`;

const eachTime = ({ give, milligram, perKilogram }: HomeMedicine): string[] => [
  '  each time',
  milligram.value === null || perKilogram.value === null
    ? `${give.written}, mg not known`
    : `${give.written}: ${roundTo(milligram.value, 3)} mg, ${twoDigits(perKilogram.value)} mg/kg`,
];

const inDay = ({ perKilogramDay }: HomeMedicine): string =>
  perKilogramDay.value === null ? '' : `; up to ${twoDigits(perKilogramDay.value)} mg/kg in 24 h`;

const inClinic = ({ lastGiven }: HomeMedicine): string[] => [
  '  in clinic',
  lastGiven.value === null ? 'none given' : `last given ${moment(lastGiven.value)}`,
];

const handedOut = ({ dispensed }: HomeMedicine): string =>
  dispensed.value?.written ?? 'not recorded';

/** The amount that is needed, where it can be counted. @param how what it is needed for */
function ofNeeded({ dispensed, needed, give }: HomeMedicine, how: string): string {
  if (needed.value === null) return '';
  const unit =
    dispensed.value !== null && dispensed.value.unit !== give.unit ? ` ${give.unit}s` : '';
  return `; ${roundTo(needed.value, 3)}${unit} ${how}`;
}

const checkedHome = ({ value, ...told }: Stated<FormularyCheck>): string =>
  value === null
    ? (told as { why: string }).why
    : `${spanned(value.dose)} mg/kg, every ${spanned(value.hours)} h, at most ${roundTo(value.mostInDay, 3)} mg/kg a day (formulary.yaml)`;

function given(given: DrugGiven, { anesthesia, identity }: CaseFacts): string[] {
  const { drug, amount, route, minute, checked } = given;
  const { value, unit } = dosePerKilogram(given);
  const at = Temporal.PlainDateTime.from(anesthesia.begin.value)
    .toZonedDateTime(identity.clinic.timeZone)
    .add({ seconds: Math.round(minute * 60) });
  return [
    at.toPlainTime().toString({ smallestUnit: 'minute' }),
    `${drug} ${amount.written}, ${route}`,
    `${twoDigits(value)} ${unit}/kg`,
    checked.value === null ? 'not checked' : `checked: ${spanned(checked.value)} mg/kg`,
  ];
}

const spanned = ([low, high]: Span): string =>
  low === high ? String(roundTo(low, 3)) : `${roundTo(low, 3)} to ${roundTo(high, 3)}`;

/** Each day that the owner is told, in order; what has no day stands last, with the reason. */
function days({ surgery, wound, home, plan }: HomeCase): string[][] {
  const { value: removal } = wound.removal ?? { value: null };
  const entries: (readonly [on: string | null, what: string])[] = [
    [surgery.date.value, 'surgery'],
    ...home.rechecks.map(({ what, on }) => [on.value, what] as const),
    ...(removal ? [[removal.proposed ?? removal.next, 'stitches or staples out'] as const] : []),
    ...(wound.drain ? [[wound.drain.on.value, `${wound.drain.what} out`] as const] : []),
    ...(plan.softUntil ? [[plan.softUntil.value, 'last day of soft food alone'] as const] : []),
    [home.collarUntil.value, 'last day of the collar'],
    [home.restUntil.value, 'last day of rest'],
    [plan.bathFrom.value, 'first bath'],
    ...(plan.swimFrom ? [[plan.swimFrom.value, 'first swim'] as const] : []),
    [plan.fullFrom.value, 'full activity'],
    ...home.awaited.map(({ result, expected }) => [expected.value, `result: ${result}`] as const),
  ];
  return entries
    .toSorted(([a], [b]) => (a ?? '9999').localeCompare(b ?? '9999'))
    .map(([on, what]) => [on === null ? 'no day' : day(on), what]);
}

const warning = ({ kind, field, found, expected, accepted }: Warning): string[] => [
  `${PROBLEM_NUMBERS[kind]} ${field ?? ''}: ${found}`,
  `  expected: ${expected}`,
  `  ${accepted === null ? 'not accepted' : `accepted: ${accepted}`}`,
];

const DISPLAYED: Readonly<Record<ShownRate['verdict'], string>> = {
  agrees: 'the displayed rate agrees',
  'about double': 'the displayed rate is about double',
  'about half': 'the displayed rate is about half',
  'short window': 'the displayed rate differs as a count over seconds may',
  unsteady: 'the heart kept no one rate beside the displayed one',
  differs: 'the displayed rate differs',
  mixed: 'the displayed rates do not say the same',
};

const displayed = ({ during, verdict }: ShownRate): string =>
  `${DISPLAYED[verdict]}${during ? '' : ', and none was displayed during the strip'}`;

/** What the rates tell of the clocks; nothing where there is no strip to compare. */
function clocks({ strips, clocks: of }: CaseFacts): string[] {
  if (strips.length === 0) return [];
  if (of.value === null) return [`clocks of vitals and strips, not known how far apart: ${of.why}`];
  const { seconds, readings } = of.value;
  return [
    `clocks of vitals and strips, by ${readings} rates: ${isApart(seconds) ? `the vitals are ${Math.abs(seconds)} s ${seconds > 0 ? 'ahead' : 'behind'}` : 'they agree'}`,
  ];
}

function rhythm({ file, lead, analysis, shown }: StripFacts): string[] {
  const { rate } = analysis;
  return [
    `${file}, lead ${lead}, ${roundTo(analysis.duration, 0)} s: ${rate === null ? 'rate not counted' : `${roundTo(rate.mean, 0)} beats/min counted`}, ${shown.value === null ? 'no displayed rate to compare' : displayed(shown.value)}`,
    ...analysis.rhythms.flatMap(({ name, from, to, possible, within }) => [
      `  ${roundTo(from, 0)} to ${roundTo(to, 0)} s: ${name}${possible.length > 0 ? `; may be ${possible.join(' or ')}` : ''}`,
      ...within.map(
        (event) => `    ${roundTo(event.from, 0)} to ${roundTo(event.to, 0)} s: ${event.name}`,
      ),
    ]),
  ];
}

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

/** `Tue 2026-03-10` */
const day = (written: string): string =>
  `${WEEKDAYS[Temporal.PlainDate.from(written).dayOfWeek - 1]} ${written.slice(0, 10)}`;

/** `Tue 2026-03-10 16:30`, by the clock that the written moment tells. */
const moment = (written: string): string => `${day(written.slice(0, 10))} ${written.slice(11, 16)}`;
