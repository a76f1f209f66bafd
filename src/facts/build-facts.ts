import type { CaseText, ConsentKind } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { bad, good, type Outcome } from '../record/problem.js';
import type { VitalsTable } from '../record/vitals-file.js';
import type { Located } from '../record/yaml-file.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';
import type { Channel, Waveform } from '../signal/waveform.js';
import { anesthesiaFacts, anesthesiaWarnings } from './anesthesia.js';
import {
  type CaseFacts,
  type Consent,
  freeze,
  type Identity,
  type SurgeryFacts,
} from './case-facts.js';
import { clockChangeMoments } from './clock-changes.js';
import { clockWarnings } from './clock-warnings.js';
import { computed, notKnown, recorded } from './fact.js';
import { homeFacts } from './home.js';
import { patientFacts, patientWarnings } from './patient.js';
import { planFacts, planWarnings } from './plan.js';
import { sideWarnings } from './sides.js';
import { stripFacts } from './strip.js';
import { minutePrecision, type Timeline, timelineOf } from './timeline.js';
import { unlikelyReadings } from './unlikely-readings.js';
import { vitalsFacts } from './vitals.js';
import { vitalsTimes } from './vitals-times.js';
import { woundFacts } from './wound.js';
import { zeroReadings } from './zero-readings.js';

/** A waveform file that was read, and what its strip showed. */
export interface ReadStrip {
  readonly waveform: Waveform;
  /** The lead that was read, in mV. */
  readonly lead: Channel;
  readonly analysis: StripAnalysis;
}

/**
 * Everything that any document may say of a case, or the problems that only show when its parts are put together.
 * @param strips one for each entry of `monitor.strips`, in that order
 * @param formulary the clinic's own doses; null where it has none, and nothing is checked
 */
export function buildFacts(
  clinic: Clinic,
  record: Located<CaseText>,
  vitals: VitalsTable,
  strips: readonly ReadStrip[],
  formulary: Formulary | null = null,
): Outcome<CaseFacts> {
  const time = timelineOf(record.value, clinic['time zone']);
  const patient = patientFacts(record);
  const home = homeFacts(record, clinic, formulary, time, patient.weight);
  const wound = woundFacts(record, clinic);
  const times = vitalsTimes(record, vitals, time);
  const changes = clockChangeMoments(record, clinic['time zone']);
  if (!home.ok || !wound.ok || !times.ok || !changes.ok) {
    // A wrong weight is told beside the doses that it spoils, lest these be mended.
    const asked = patientWarnings(record, patient).flatMap(({ accepted, ...problem }) =>
      accepted === null ? [problem] : [],
    );
    return bad(
      ...asked,
      ...[changes, wound, home, times].flatMap((part) => (part.ok ? [] : part.problems)),
    );
  }
  const plan = planFacts(record, formulary, time, wound.value.wound, home.value.home);
  const measured = vitalsFacts(record.value, vitals, time, clinic['low mean pressure']);
  const read = strips.map(({ waveform, analysis }, index) =>
    stripFacts(record, index, waveform, analysis, measured.channels, time),
  );
  const { consent, published } = record.value;
  return good(
    freeze({
      identity: identity(record.value, clinic),
      patient,
      surgery: surgeryFacts(record, time),
      anesthesia: anesthesiaFacts(record, time, patient.weight, formulary),
      vitals: measured,
      strips: read,
      wound: wound.value.wound,
      home: home.value.home,
      plan,
      warnings: [
        ...patientWarnings(record, patient),
        ...sideWarnings(record),
        ...anesthesiaWarnings(record, patient.weight, formulary),
        ...wound.value.warnings,
        ...home.value.warnings,
        ...planWarnings(record, time, wound.value.wound, home.value.home, plan),
        ...times.value,
        ...changes.value,
        ...zeroReadings(record, measured.channels),
        ...unlikelyReadings(record, measured.channels),
        ...clockWarnings(record, measured.channels, read),
      ],
      consent: {
        teaching: consentFact(consent.teaching),
        record: consentFact(consent.record),
        photos: consentFact(consent.photos),
        questions: consentFact(consent.questions),
      },
      published: published ?? null,
    }),
  );
}

function consentFact(consent: CaseText['consent'][ConsentKind]): Consent {
  const { given, by, on, withdrawn } = consent;
  return {
    allows: given === 'yes' && withdrawn === undefined,
    by: by ?? null,
    on: on ?? null,
    withdrawn: withdrawn ?? null,
  };
}

function identity(record: CaseText, clinic: Clinic): Identity {
  const { owner, patient, team } = record;
  return {
    record: record.record,
    patientName: patient.name,
    microchip: patient.microchip ?? null,
    owner: {
      name: owner.name,
      phone: owner.phone ?? null,
      email: owner.email ?? null,
      address: owner.address ?? null,
      language: owner.language,
      largeType: (owner['large type'] ?? clinic['large type']) === 'yes',
    },
    surgeon: team.surgeon,
    anesthetist: team.anesthesia ?? null,
    others: team.others,
    clinic: {
      name: clinic.name,
      address: clinic.address,
      phone: clinic.phone,
      emergency: clinic.emergency ?? null,
      timeZone: clinic['time zone'],
      paper: clinic.paper,
      clock: clinic.clock,
    },
  };
}

function surgeryFacts({ value, where }: Located<CaseText>, time: Timeline): SurgeryFacts {
  const { surgery } = value;
  const field = (name: string) => where('surgery', name);
  const length = surgery['incision length'];
  const note = surgery['note to owner'];
  return {
    date: recorded(surgery.date, field('date')),
    procedure: recorded(surgery.procedure, field('procedure')),
    site: surgery.site
      ? recorded(surgery.site, field('site'))
      : notKnown('The record names no site.'),
    duration:
      surgery.begin && surgery.end
        ? computed(
            time.minuteOf(time.local(surgery.end)) - time.minuteOf(time.local(surgery.begin)),
            'end less begin, in minutes',
            field('begin'),
            field('end'),
          )
        : notKnown('The record does not state both the first incision and the end of surgery.'),
    incision: length
      ? recorded(length, field('incision length'))
      : notKnown('The record states no length.'),
    discharge: recorded(minutePrecision(time.local(surgery.discharge)), field('discharge')),
    noteToOwner: note
      ? recorded(note, field('note to owner'))
      : notKnown('The surgeon left no note.'),
  };
}
