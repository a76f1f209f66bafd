import { z } from 'zod';
import { CHANNELS, CLINIC_ROUTES, EVENTS, SPECIES } from '../../record/vocabulary.js';

/** Raised with every change that a reader of older files would stumble over. */
export const RECORD_VERSION = 4;

export const RECORD_SCHEMA_NAME = `record-${RECORD_VERSION}.schema.json`;

const minute = z.number().meta({ description: 'minutes since the start of anesthesia' });
const seconds = z.number().meta({ description: 'seconds after the first sample of the strip' });
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const time = z.string().regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/);

const reading = z.strictObject({ minute, value: z.number() });

const strip = z.strictObject({
  lead: z.string(),
  files: z.strictObject({
    edf: z.string().nullable().meta({ description: 'null where EDF+ cannot hold the samples' }),
    edfLeavesOut: z.number().meta({ description: 'seconds at the end that fill no record' }),
    wfdb: z.string(),
  }),
  channels: z.array(z.string()),
  begins: minute.nullable(),
  duration: seconds,
  samplingRate: z.number().meta({ description: 'Hz' }),
  readable: z.number().meta({ description: 'share that could be read, 0 to 1' }),
  beats: z.array(z.strictObject({ time: seconds, kind: z.string() })),
  rate: z
    .strictObject({
      mean: z.number().meta({ description: 'beats/min over the whole strip' }),
      shortest: seconds,
      longest: seconds,
    })
    .nullable()
    .meta({ description: 'null where the beats could not be counted' }),
  rhythms: z.array(
    z.strictObject({
      name: z.string(),
      from: seconds,
      to: seconds,
      confidence: z.number().nullable(),
    }),
  ),
});

/** `record.json`: one anonymized anesthesia as data. */
export const recordSchema = z.strictObject({
  format: z.literal('thrice anesthesia record'),
  version: z.literal(RECORD_VERSION),
  checked: z.boolean().meta({ description: 'whether a veterinarian has approved the case' }),
  case: z
    .string()
    .regex(/^([a-hjkmnp-tv-z]{2}[0-9]){6}$/)
    .meta({ description: 'the pseudonym, the same in every version of this case' }),
  called: z.string(),
  patient: z.strictObject({
    species: z.enum(SPECIES),
    breed: z.string().nullable().meta({ description: 'null where it is rare in the collection' }),
    sex: z
      .enum(['female', 'male'])
      .nullable()
      .meta({ description: 'null, as the age may be, where too few cases would tell the same' }),
    neutered: z.boolean().nullable(),
    ageBand: z.string().nullable().meta({ description: 'years' }),
    weight: z.number().meta({ description: 'kg, rounded; doses are per kg of the true weight' }),
  }),
  procedure: z.string(),
  region: z.string().nullable(),
  dates: z
    .union([
      z.strictObject({
        shifted: z.literal(true),
        began: time,
        discharged: time,
        stitchesOut: day.nullable(),
      }),
      z.strictObject({ shifted: z.literal(true), began: time, died: time }),
    ])
    .meta({
      description:
        'local times, all moved by one secret number of whole weeks: intervals, days of the week and times of day are true, the dates are not',
    }),
  anesthesia: z.strictObject({
    minutes: z.number(),
    surgeryMinutes: z.number().nullable(),
    breathing: z.enum(['spontaneous', 'ventilator']),
    ventilatorRate: z.number().nullable().meta({ description: 'breaths/min' }),
    maintenance: z.string().nullable(),
    drugs: z.array(
      z.strictObject({
        drug: z.string(),
        route: z.enum(CLINIC_ROUTES),
        minute,
        perKilogram: z.strictObject({ value: z.number(), unit: z.enum(['mg', 'mcg', 'mL']) }).meta({
          description: 'dose over body weight in two digits, in the unit of the dose per kg',
        }),
      }),
    ),
    events: z.array(z.strictObject({ minute, what: z.enum(EVENTS), note: z.string().nullable() })),
  }),
  vitals: z.strictObject({
    file: z.string(),
    channels: z.array(
      z.strictObject({
        channel: z.enum(CHANNELS),
        unit: z.string(),
        computed: z.boolean().meta({
          description: 'whether any of its readings was computed from other channels',
        }),
        readings: z.array(
          reading.extend({
            computed: z
              .literal(true)
              .optional()
              .meta({ description: 'there where this one was computed and not read' }),
          }),
        ),
        notThePatient: z
          .array(reading.extend({ why: z.string() }))
          .meta({ description: 'shown by the monitor while the sensor was not on the patient' }),
      }),
    ),
    lowPressure: z
      .strictObject({
        limit: z.number(),
        episodes: z.array(
          z.strictObject({
            from: minute.meta({ description: 'first reading below the limit, minutes' }),
            to: minute.meta({
              description:
                'first later reading that was not, or the last reading where none followed, minutes; the pressure may have been low since the reading before `from`',
            }),
            ended: z.boolean(),
            lowest: reading,
          }),
        ),
      })
      .nullable(),
  }),
  strips: z.array(strip),
});

export type AnonymousRecord = z.output<typeof recordSchema>;

/** The schema as JSON Schema 2020-12, for any program. */
export const recordJsonSchema = (): object =>
  z.toJSONSchema(
    recordSchema.meta({ title: `thrice anesthesia record, version ${RECORD_VERSION}` }),
  );
