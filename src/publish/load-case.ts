import { basename, join } from 'node:path';
import { buildFacts, type ReadStrip } from '../facts/build-facts.js';
import type { CaseFacts } from '../facts/case-facts.js';
import type { ContentKeys } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import { localTime } from '../record/moments.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import { readCase } from '../record/read-case.js';
import { readVitals } from '../record/vitals-file.js';
import { analyseStrip } from '../signal/analyse.js';
import { ecgLead } from '../signal/ecg-lead.js';
import { readWaveform } from '../signal/files/read.js';
import { toKilogram } from '../units/convert.js';
import { type Effects, readText } from './effects.js';

/** A case with all that its documents need. */
export interface LoadedCase {
  /** Name of the case folder. */
  readonly name: string;
  readonly facts: CaseFacts;
  readonly strips: readonly ReadStrip[];
  /** The author's remarks for the teaching page, Markdown. */
  readonly remarks: string;
}

/** Reads a case folder; all problems of the case are listed at once. */
export function loadCase(
  folder: string,
  clinic: Clinic,
  keys: ContentKeys,
  effects: Effects,
): Outcome<LoadedCase> {
  const caseFile = join(folder, 'case.yaml');
  const text = readText(effects, caseFile);
  if (!text.ok) return text;
  const record = readCase(text.value, caseFile, keys);
  if (!record.ok) return record;
  const { value, at } = record.value;
  const problems: Problem[] = [];
  const collect = <T>(outcome: Outcome<T>): T | undefined => {
    if (outcome.ok) return outcome.value;
    problems.push(...outcome.problems);
    return undefined;
  };

  const vitalsFile = join(folder, value.monitor.vitals);
  const vitalsText = collect(readText(effects, vitalsFile));
  const begin = localTime(value.anesthesia.begin, value.surgery.date);
  const vitals =
    vitalsText === undefined ? undefined : collect(readVitals(vitalsText, vitalsFile, begin));
  const weight = toKilogram(value.patient.weight.value, value.patient.weight.unit);
  const strips = value.monitor.strips.map((strip, index): ReadStrip | undefined => {
    const rate = strip['sampling rate'];
    const waveform = collect(
      readWaveform(
        join(folder, strip.file),
        effects.readBytes,
        rate ? { samplingRate: rate.value } : {},
      ),
    );
    if (!waveform) return undefined;
    const lead = collect(ecgLead(waveform, strip.lead, at('monitor', 'strips', index, 'lead')));
    return (
      lead && {
        waveform,
        lead,
        analysis: analyseStrip([lead], { species: value.patient.species, weight }),
      }
    );
  });
  const remarks = value.teaching ? collect(readText(effects, join(folder, value.teaching))) : '';
  if (!vitals || remarks === undefined || problems.length > 0) return bad(...problems);

  const read = strips.filter((strip) => strip !== undefined);
  const facts = buildFacts(clinic, record.value, vitals, read);
  return facts.ok
    ? good({ name: basename(folder), facts: facts.value, strips: read, remarks })
    : facts;
}
