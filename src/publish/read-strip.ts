import { ageOn } from '../facts/patient.js';
import { pulseReadings } from '../facts/pulse-readings.js';
import type { ReadStrip } from '../facts/strip.js';
import type { CaseText } from '../record/case-schema.js';
import { good, type Outcome } from '../record/problem.js';
import type { VitalsTable } from '../record/vitals-file.js';
import type { Located } from '../record/yaml-file.js';
import type { analyseStrip } from '../signal/analyse.js';
import { inTradeNames } from '../signal/channel-names.js';
import { ecgLeads } from '../signal/ecg-lead.js';
import { readWaveform } from '../signal/files/read.js';
import type { Patient } from '../signal/marked-beat.js';
import { yearsOf } from '../units/age.js';
import { toKilogram } from '../units/convert.js';
import type { Effects } from './effects.js';

/**
 * Reads one strip of a record and finds what is on it. From here on its channels bear the names of the trade: what
 * somebody typed at a recorder goes no further than messages to the clinic.
 */
export function readStrip(
  file: string,
  index: number,
  record: Located<CaseText>,
  vitals: VitalsTable,
  timeZone: string,
  effects: Pick<Effects, 'readBytes'>,
  analyse: typeof analyseStrip,
): Outcome<ReadStrip> {
  const { value, at } = record;
  const strip = value.monitor.strips[index] as CaseText['monitor']['strips'][number];
  const rate = strip['sampling rate'];
  const written = readWaveform(file, effects.readBytes, rate ? { samplingRate: rate.value } : {});
  if (!written.ok) return written;
  const place = at('monitor', 'strips', index, 'lead');
  // By the file's own labels, so that a message can quote them.
  const asked = ecgLeads(written.value, strip.lead, place);
  if (!asked.ok) return asked;
  const { waveform, read } = inTradeNames(written.value, asked.value[0].label);
  const leads = ecgLeads(waveform, read, place);
  if (!leads.ok) return leads;
  return good({
    waveform,
    lead: leads.value[0],
    analysis: analyse(leads.value, {
      patient: stripPatient(value),
      breath: {
        ...waveform,
        ventilatorRate: value.anesthesia['ventilator rate']?.value ?? null,
      },
      pulse: {
        channels: waveform.channels,
        readings: pulseReadings(record, index, waveform, vitals, timeZone),
      },
    }),
  });
}

/** The patient as far as the reading of a strip depends on it. */
function stripPatient({ patient, surgery }: CaseText): Patient {
  const told = patient.age && { count: patient.age.value, unit: patient.age.unit };
  const age = patient.born === undefined ? told : ageOn(patient.born, surgery.date);
  return {
    species: patient.species,
    weight: toKilogram(patient.weight.value, patient.weight.unit),
    ageYears: age ? yearsOf(age) : null,
    anesthetised: true,
  };
}
