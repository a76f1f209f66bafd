import type { CaseText, ConsentKind, HomeText } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { bad, good, type Outcome } from '../record/problem.js';
import type { VitalsTable } from '../record/vitals-file.js';
import type { Located } from '../record/yaml-file.js';
import { anesthesiaFacts, anesthesiaWarnings } from './anesthesia.js';
import { answered } from './asked.js';
import {
  type AnyCase,
  type CaseFacts,
  type Consent,
  freeze,
  type HomeCase,
  type Identity,
  type SurgeryFacts,
} from './case-facts.js';
import { clockChangeMoments } from './clock-changes.js';
import { clockFacts, clockWarnings } from './clocks.js';
import { consentDays } from './consent-days.js';
import { endingOf } from './ending.js';
import { computed, notKnown, recorded } from './fact.js';
import { patientFacts, patientWarnings } from './patient.js';
import { repeatedLines } from './repeated-lines.js';
import { sideWarnings } from './sides.js';
import { type ReadStrip, stripFacts } from './strip.js';
import { surgerySlips } from './surgery-slips.js';
import { type Timeline, timelineOf } from './timeline.js';
import { unexplainedOxygen } from './unexplained-oxygen.js';
import { unlikelyReadings } from './unlikely-readings.js';
import { vitalsFacts } from './vitals.js';
import { vitalsTimes } from './vitals-times.js';
import { zeroReadings } from './zero-readings.js';

/**
 * Everything that any document may say of a case, or the problems that only show when its parts are put together. A record
 * of a patient that goes home gives facts of one.
 * @param strips one for each entry of `monitor.strips`, in that order
 * @param formulary the clinic's own doses; null where it has none, and nothing is checked
 */
export function buildFacts(
  clinic: Clinic,
  record: Located<HomeText>,
  vitals: VitalsTable,
  strips: readonly ReadStrip[],
  formulary?: Formulary | null,
): Outcome<HomeCase>;
/** The same of a patient of which it is not known here whether it goes home. */
export function buildFacts(
  clinic: Clinic,
  record: Located<CaseText>,
  vitals: VitalsTable,
  strips: readonly ReadStrip[],
  formulary?: Formulary | null,
): Outcome<CaseFacts>;
export function buildFacts(
  clinic: Clinic,
  record: Located<CaseText>,
  vitals: VitalsTable,
  strips: readonly ReadStrip[],
  formulary: Formulary | null = null,
): Outcome<CaseFacts> {
  const time = timelineOf(record.value, clinic['time zone']);
  const patient = patientFacts(record);
  const ending = endingOf(clinic, record, formulary, time, patient.weight);
  const times = vitalsTimes(record, vitals, time);
  const changes = clockChangeMoments(record, clinic['time zone']);
  if (!ending.ok || !times.ok || !changes.ok) {
    // A wrong weight is told beside the doses that it spoils, lest these be mended.
    const asked = answered(patientWarnings(record, patient)).flatMap(({ accepted, ...problem }) =>
      accepted === null ? [problem] : [],
    );
    return bad(
      ...asked,
      ...[changes, ending, times].flatMap((part) => (part.ok ? [] : part.problems)),
    );
  }
  const measured = vitalsFacts(record.value, vitals, time, clinic['low mean pressure']);
  const read = strips.map((strip, index) =>
    stripFacts(record, index, strip, measured.channels, time),
  );
  const clocks = clockFacts(measured.channels, read);
  const { consent, published } = record.value;
  const shared: AnyCase = {
    identity: identity(record.value, clinic),
    patient,
    surgery: surgeryFacts(record, time),
    anesthesia: anesthesiaFacts(record, time, patient.weight, formulary),
    vitals: measured,
    strips: read,
    clocks,
    warnings: answered([
      ...patientWarnings(record, patient),
      ...sideWarnings(record),
      ...surgerySlips(record, patient.weight),
      ...consentDays(record),
      ...anesthesiaWarnings(record, patient.weight, formulary),
      ...ending.value.warnings,
      ...times.value,
      ...changes.value,
      ...repeatedLines(record, vitals),
      ...zeroReadings(record, measured.channels),
      ...unlikelyReadings(record, measured.channels),
      ...unexplainedOxygen(record, measured),
      ...clockWarnings(record, clocks),
    ]),
    consent: {
      teaching: consentFact(consent.teaching),
      record: consentFact(consent.record),
      photos: consentFact(consent.photos),
      questions: consentFact(consent.questions),
    },
    published: published ?? null,
  };
  return good(freeze(ending.value.complete(shared)));
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
      language: owner.language ?? (clinic.languages[0] as string),
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
      opening: { hours: clinic.hours, 'closed on': clinic['closed on'] },
      paper: clinic.paper,
      clock: clinic.clock,
    },
  };
}

function surgeryFacts({ value, where }: Located<CaseText>, time: Timeline): SurgeryFacts {
  const { surgery } = value;
  const field = (name: string) => where('surgery', name);
  const length = surgery['incision length'];
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
  };
}
