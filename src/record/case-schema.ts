import { z } from 'zod';
import { answers } from './answers.js';
import { asNeededSchema } from './as-needed-schema.js';
import { clockSkew } from './clock-skew.js';
import { medicineSchema } from './medicine-schema.js';
import { date, moment } from './moments.js';
import { positive, quantity } from './quantity.js';
import { sutureSize } from './suture-size.js';
import { timeZone } from './time-zone.js';
import * as trade from './vocabulary.js';
import { fileName, name, oneOf, text, yesNo } from './words.js';
import type { Located } from './yaml-file.js';

/** Keys that the clinic's content folder defines; the schema takes them as an argument so that a clinic can add its own. */
export interface ContentKeys {
  readonly procedures: readonly string[];
  readonly purposes: readonly string[];
  /** Tags of the language folders. */
  readonly languages: readonly string[];
}

const patient = z.strictObject({
  name: name("the patient's name"),
  species: oneOf('the species', trade.SPECIES),
  breed: name('the breed'),
  sex: oneOf('the sex', ['female', 'male']),
  neutered: yesNo('whether the patient was neutered before this surgery'),
  born: date('the date of birth').optional(),
  age: positive(
    ['years', 'months', 'weeks'],
    'the age, where no date of birth is known',
  ).optional(),
  weight: positive(['kg', 'lb', 'g'], 'the body weight'),
  microchip: text('the microchip number, in quotes').optional(),
  'accepted because': answers('the patient or what was done to it').optional(),
});

const owner = (languages: readonly string[]) =>
  z.strictObject({
    name: name("the owner's name"),
    phone: text("the owner's telephone number").optional(),
    email: text("the owner's e-mail address").optional(),
    address: text("the owner's address").optional(),
    language: oneOf("the language of the owner's sheet", languages as [string, ...string[]])
      .optional()
      .meta({
        description: "the language of the owner's sheet; the clinic's first where left out",
      }),
    'large type': yesNo('whether the sheet is printed in large type').optional().meta({
      description:
        "whether the owner's sheet is printed in large type; as the clinic has it where left out",
    }),
  });

const surgery = (procedures: readonly string[]) =>
  z.strictObject({
    date: date('the day of surgery'),
    procedure: oneOf('the procedure, as named in content/', procedures as [string, ...string[]]),
    site: text('where on the body, in plain words').optional(),
    begin: moment('the first incision').optional(),
    end: moment('the end of surgery').optional(),
    'incision length': positive(['mm', 'cm'], 'the length of the incision').optional(),
    discharge: moment('when the patient goes home').optional().meta({
      description: 'when the patient goes home; left out where it died',
    }),
    /** A sentence of the surgeon's for the owner; printed as written. */
    'note to owner': text("the surgeon's own words to the owner").optional(),
  });

const clinicDose = z.strictObject({
  drug: name('the generic name of the drug'),
  dose: positive(['mg', 'mcg', 'g', 'mL'], 'the amount given'),
  route: oneOf('the route', trade.CLINIC_ROUTES),
  at: moment('when it was given'),
  'accepted because': answers('this dose').optional(),
});

const anesthesia = z.strictObject({
  begin: moment('the start of anesthesia'),
  end: moment('the end of anesthesia'),
  breathing: oneOf('who breathes', ['spontaneous', 'ventilator']),
  'ventilator rate': positive(['/min'], 'the breaths that the ventilator gives').optional(),
  maintenance: text('the agent that kept the patient asleep').optional(),
  drugs: z.array(clinicDose).default([]),
});

const event = z.strictObject({
  at: moment('when it happened'),
  what: oneOf('what happened', trade.EVENTS),
  note: text('a short remark without names').optional(),
});

const offPatient = z.strictObject({
  channel: oneOf('the column of the vitals file', trade.CHANNELS),
  from: moment('from when the sensor was off the patient').optional(),
  to: moment('until when the sensor was off the patient').optional(),
  why: text('where the sensor was instead'),
});

const strip = z.strictObject({
  file: fileName('the waveform file', ['.edf', '.hea', '.csv']),
  lead: text('the ECG lead to read, as the file names it'),
  begin: moment('the time of the first sample, where the file does not state it').optional(),
  'sampling rate': positive(
    ['Hz'],
    'samples per second, for a CSV file without a time column',
  ).optional(),
});

const monitor = z.strictObject({
  vitals: fileName('the vitals file', ['.csv', '.txt', '.tsv']),
  table: text("the form of the vitals file, by its name in the clinic's file").optional(),
  'clock of vitals': clockSkew.optional(),
  'off patient': z.array(offPatient).default([]),
  strips: z.array(strip).default([]),
  'accepted because': answers('the readings').optional(),
});

const layer = z.strictObject({
  layer: oneOf('the layer', trade.LAYERS),
  material: oneOf('the suture material by its generic name', trade.MATERIALS),
  size: sutureSize('the USP size').optional(),
  pattern: oneOf('the pattern', trade.PATTERNS),
});

const closure = z.strictObject({
  healing: oneOf('how the wound heals', ['edge to edge', 'left open']),
  place: oneOf(
    'where the wound is; left out, as the procedure has it',
    trade.WOUND_PLACES,
  ).optional(),
  bandage: yesNo(
    'whether a wound that is left open goes home under a bandage; left out, it does',
  ).optional(),
  'edge gap': quantity(['mm', 'cm'], 'the distance between the skin edges'),
  tension: oneOf('the pull on the skin edges', ['none', 'some', 'high']),
  'slower because': z.array(oneOf('a reason for slower healing', trade.SLOWER_HEALING)).default([]),
  layers: z.array(layer).default([]),
  drain: z
    .strictObject({
      what: oneOf('the kind of drain', trade.DRAINS),
      'out after': positive(['days', 'weeks'], 'how long after surgery the drain comes out'),
    })
    .optional(),
  'remove on': date(
    'the day on which stitches or staples come out, where the veterinarian sets it',
  ).optional(),
  'accepted because': answers('the closure').optional(),
});

const recheck = z.strictObject({
  what: oneOf('the reason for the visit', [
    'wound check',
    'bandage change',
    'drain',
    'blood pressure',
    'talk',
  ]),
  after: positive(['days', 'weeks'], 'how long after surgery'),
});

const food = z
  .strictObject({
    from: moment('from when the patient may eat at home'),
    'how much': oneOf('how much of it at first', trade.FIRST_MEALS),
    what: oneOf('the kind of food', trade.FOODS).default('usual food'),
    'accepted because': answers('the food').optional(),
  })
  .meta({ description: 'the first meal at home; left out, the sheet makes no statement on it' });

const home = (purposes: readonly string[]) =>
  z.strictObject({
    'at home in': timeZone
      .optional()
      .meta({ description: "the home's time zone, where it is not the clinic's" }),
    medicines: z.array(medicineSchema(purposes)).default([]),
    'as needed': z.array(asNeededSchema(purposes)).default([]).meta({
      description: 'medicines without hours, which the owner gives only when they are wanted',
    }),
    collar: positive(['days', 'weeks'], 'how long the collar stays on').optional(),
    rest: positive(['days', 'weeks'], 'how long activity is kept low'),
    'full activity after': positive(
      ['days', 'weeks'],
      'how long after surgery all activity is allowed again',
    ).optional(),
    food: food.optional(),
    'soft food': positive(
      ['days', 'weeks'],
      'how long after surgery there is soft food alone; left out, until a wound in the mouth is closed',
    ).optional(),
    rechecks: z.array(recheck).default([]),
    awaited: z
      .array(
        z.strictObject({
          result: text('the result that is still awaited, in plain words'),
          after: positive(['days', 'weeks'], 'when it is expected'),
        }),
      )
      .default([]),
    'accepted because': answers('collar, rest or visits').optional(),
  });

const photo = z.strictObject({
  file: fileName('the photo', ['.jpg', '.jpeg', '.png']),
  shows: text('what the photo shows, without names'),
  on: z
    .array(oneOf('where the photo is printed', ['owner sheet', 'teaching page']))
    .min(1, { error: 'owner sheet, teaching page or both' }),
});

const consent = (what: string) =>
  z
    .strictObject({
      given: yesNo(`whether the owner allows ${what}`),
      by: text('who gave it').optional(),
      on: date('when it was given').optional(),
      withdrawn: date('when it was taken back; the next build publishes nothing of it').optional(),
    })
    .meta({ description: `the owner's consent to ${what}` });

/** What an owner is asked about, each for itself. */
export const CONSENTS = ['teaching', 'record', 'photos', 'questions'] as const;
export type ConsentKind = (typeof CONSENTS)[number];

/** How the case appears in public; nothing here may identify anyone. */
const published = z.strictObject({
  title: text('the title of the teaching page'),
  patient: text('what the patient is called there, such as "a spaniel"'),
  address: text('the address of its pages: lower-case words joined by dashes').regex(
    /^[a-z0-9]+(-[a-z0-9]+)*$/,
    { error: 'lower-case words joined by dashes' },
  ),
});

/** `case.yaml`: everything that is told of one surgery. */
export const caseSchema = (keys: ContentKeys) =>
  z.strictObject({
    record: text("the clinic's record number, in quotes"),
    patient,
    owner: owner(keys.languages),
    team: z.strictObject({
      surgeon: name('the veterinarian who operated'),
      anesthesia: name('who watched the anesthesia').optional(),
      others: z
        .array(name('somebody else who took part, such as a second surgeon'))
        .default([])
        .meta({ description: 'everybody else who took part, whose names never become public' }),
    }),
    surgery: surgery(keys.procedures),
    anesthesia,
    events: z.array(event).default([]),
    monitor,
    closure: closure.optional(),
    photos: z.array(photo).default([]),
    home: home(keys.purposes).optional(),
    consent: z.strictObject({
      teaching: consent('the teaching page'),
      record: consent('the anonymized anesthesia record'),
      photos: consent('photos on the teaching page').default({ given: 'no' }),
      questions: consent('questions of the audience on the teaching page').default({
        given: 'no',
      }),
    }),
    published: published.optional(),
    'public passages': z
      .array(
        z.strictObject({
          passage: text('the passage, word for word'),
          decision: oneOf('what becomes of it', ['publish', 'leave out']),
          because: text('why it may be published').optional(),
        }),
      )
      .default([])
      .meta({ description: 'decisions on passages that look like an identifier' }),
    teaching: fileName('questions and remarks for the teaching page', ['.md']).optional(),
  });

/** A record as it is written: every field is well formed by itself. */
export type WrittenCase = z.output<ReturnType<typeof caseSchema>>;

type Told<Key extends keyof WrittenCase> = NonNullable<WrittenCase[Key]>;
type AnyEnding = Omit<WrittenCase, 'surgery' | 'closure' | 'home'>;

/** The record of a patient that goes home. */
export interface HomeText extends AnyEnding {
  readonly surgery: Told<'surgery'> & { readonly discharge: string };
  readonly closure: Told<'closure'>;
  readonly home: Told<'home'>;
}

/** The record of a patient that died: it has no way home and nothing to do there. */
export interface DeathText extends AnyEnding {
  readonly surgery: Told<'surgery'> & { readonly discharge?: undefined };
  readonly closure?: undefined;
  readonly home?: undefined;
}

/** A record whose fields also agree with one another. */
export type CaseText = HomeText | DeathText;

/** Whether the patient goes home, so that its record tells the way and the care there. */
export const wentHome = (record: Located<CaseText>): record is Located<HomeText> =>
  record.value.home !== undefined;
