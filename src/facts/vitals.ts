import type { CaseText } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import { CHANNEL_UNITS, type VitalsTable } from '../record/vitals-file.js';
import { CHANNELS, type ChannelName, type Species } from '../record/vocabulary.js';
import {
  AFTER_DEATH,
  BY_VENTILATOR,
  type ChannelReadings,
  type OffPatient,
  type Reading,
  readingsOf,
  spreadOf,
} from '../vitals/channel.js';
import { LOW_SATURATION, lowOxygen } from '../vitals/oxygen.js';
import {
  burdenBelow,
  episodesBelow,
  LOW_MEAN_PRESSURE,
  LOW_SYSTOLIC_PRESSURE,
  meanPressure,
} from '../vitals/pressure.js';
import type { ChannelFacts, SystolicAlone, VitalsFacts, WhyNoMean } from './case-facts.js';
import { computed, type Fact, notKnown } from './fact.js';
import type { Timeline } from './timeline.js';

const GUIDELINE = '2020 AAHA Anesthesia and Monitoring Guidelines for Dogs and Cats';

/** What the monitor showed, by channel, with what was not the patient told apart. */
export function vitalsFacts(
  record: CaseText,
  table: VitalsTable,
  time: Timeline,
  chosen?: Clinic['low mean pressure'],
): VitalsFacts {
  const limit = chosen?.value ?? LOW_MEAN_PRESSURE;
  const file = record.monitor.vitals;
  const off = [
    ...record.monitor['off patient'].map(
      (span): OffPatient => ({
        channel: span.channel,
        from: span.from ? time.minuteOf(time.local(span.from)) : Number.NEGATIVE_INFINITY,
        to: span.to ? time.minuteOf(time.local(span.to)) : Number.POSITIVE_INFINITY,
        why: span.why,
      }),
    ),
    ...ventilated(record, time),
    ...afterDeath(record, time),
  ];
  const read = (channel: ChannelName) => readingsOf(table, channel, CHANNEL_UNITS[channel], off);
  const mean = meanPressure(read('mean'), read('systolic'), read('diastolic'), off);
  const names =
    table.channels.includes('mean') || mean.patient.length === 0
      ? table.channels
      : [...table.channels, 'mean' as const];
  const channels = names.map(
    (name): ChannelFacts => withSpread(name === 'mean' ? mean : read(name), file),
  );
  return {
    file,
    channels,
    lowPressure:
      mean.patient.length === 0
        ? notKnown(whyNoMean(read('systolic'), read('diastolic')))
        : computed(
            {
              limit,
              chosenBy: chosen ? 'clinic' : 'guideline',
              episodes: episodesBelow(limit, mean.patient),
              ...originOf(mean.patient),
              burden: burdenBelow(limit, mean.patient),
            },
            `mean pressure under ${limit} mmHg, each run of low readings with the readings around it`,
            ...rowsOf(mean, file),
            chosen ? 'clinic.yaml, low mean pressure' : GUIDELINE,
          ),
    systolicAlone:
      mean.patient.length === 0 && read('diastolic').patient.length === 0
        ? systolicAlone(read('systolic'), record.patient.species, file)
        : null,
    ...oxygenFacts(read('SpO2'), record, time),
  };
}

/** Nothing where saturation was not low for many minutes. */
function oxygenFacts(
  saturation: ChannelReadings,
  { events, monitor }: CaseText,
  time: Timeline,
): Pick<VitalsFacts, 'lowOxygen'> {
  const noted = events.map(({ at, what, note = null }) => ({
    minute: time.minuteOf(time.local(at)),
    what,
    note,
  }));
  const episodes = lowOxygen(saturation.patient, noted);
  if (episodes.length === 0) return {};
  return {
    lowOxygen: computed(
      episodes,
      `oxygen saturation of ${LOW_SATURATION} % or less (from memory, unverified) for many minutes, with what the events tell of it`,
      ...rowsOf(saturation, monitor.vitals),
    ),
  };
}

function whyNoMean(systolic: ChannelReadings, diastolic: ChannelReadings): WhyNoMean {
  if (diastolic.patient.length > 0) {
    return 'The record holds no mean pressure, and none can be computed.';
  }
  return systolic.patient.length > 0
    ? 'The record holds only systolic pressure.'
    : 'The record holds no blood pressure of the patient.';
}

/** The species that the guideline on blood pressure speaks of. */
const OF_GUIDELINE: readonly Species[] = ['dog', 'cat'];

function systolicAlone(
  systolic: ChannelReadings,
  species: Species,
  file: string,
): Fact<SystolicAlone> | null {
  const spread = spreadOf(systolic.patient);
  if (!spread) return null;
  return computed(
    {
      limit: LOW_SYSTOLIC_PRESSURE,
      ofSpecies: OF_GUIDELINE.includes(species),
      lowest: spread.lowest.value,
      highest: spread.highest.value,
      count: spread.count,
      episodes: episodesBelow(LOW_SYSTOLIC_PRESSURE, systolic.patient),
    },
    `systolic pressure under ${LOW_SYSTOLIC_PRESSURE} mmHg, each run of low readings with the readings around it`,
    ...rowsOf(systolic, file),
    GUIDELINE,
  );
}

/**
 * When a ventilator gave the breaths: from each "ventilator on" to the "ventilator off" after it, the readings of both
 * minutes included, since they tell of the time before. Where the record names neither but says that the patient was
 * ventilated, nobody knows which breaths were its own, and none is taken for one.
 */
function ventilated(record: CaseText, time: Timeline): OffPatient[] {
  const span = (from: number, to: number): OffPatient => ({
    channel: 'breaths',
    from,
    to,
    why: BY_VENTILATOR,
  });
  const turns = record.events
    .filter(({ what }) => what === 'ventilator on' || what === 'ventilator off')
    .map(({ at, what }) => ({
      minute: time.minuteOf(time.local(at)),
      on: what === 'ventilator on',
    }))
    .sort((a, b) => a.minute - b.minute);
  const [first] = turns;
  if (!first) {
    return record.anesthesia.breathing === 'ventilator'
      ? [span(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)]
      : [];
  }
  return [
    // Turned off before it was ever turned on: it ran from a time that the record does not tell.
    ...(first.on ? [] : [span(Number.NEGATIVE_INFINITY, first.minute)]),
    ...turns.flatMap(({ minute, on }) =>
      on
        ? [
            span(
              minute,
              turns.find((next) => !next.on && next.minute >= minute)?.minute ??
                Number.POSITIVE_INFINITY,
            ),
          ]
        : [],
    ),
  ];
}

/** From the minute after the death on nothing is of the patient. */
function afterDeath({ events }: CaseText, time: Timeline): OffPatient[] {
  const death = events.find(({ what }) => what === 'death');
  if (!death) return [];
  const from = time.minuteOf(time.local(death.at)) + 1;
  return CHANNELS.map((channel) => ({
    channel,
    from,
    to: Number.POSITIVE_INFINITY,
    why: AFTER_DEATH,
  }));
}

function withSpread(readings: ChannelReadings, file: string): ChannelFacts {
  const spread = spreadOf(readings.patient);
  const [apart] = readings.apart;
  const { read, computed: estimated } = originOf(readings.patient);
  return {
    ...readings,
    spread: spread
      ? computed(
          spread,
          [
            ...(read > 0 ? ['lowest, highest and median reading'] : []),
            ...(estimated > 0 ? ['diastolic plus one third of systolic less diastolic'] : []),
          ].join('; where none was read, '),
          ...rowsOf(readings, file),
        )
      : notKnown(apart ? "No reading is the patient's own." : 'The record holds no reading.'),
  };
}

/** How many readings were read, and how many computed from other channels. */
function originOf(readings: readonly Reading[]): { read: number; computed: number } {
  const estimated = readings.filter((reading) => reading.computed).length;
  return { read: readings.length - estimated, computed: estimated };
}

function rowsOf(readings: ChannelReadings, file: string): string[] {
  const first = readings.patient.at(0)?.line;
  const last = readings.patient.at(-1)?.line;
  return first === undefined ? [] : [`${file}:${first}-${last} ${readings.channel}`];
}
