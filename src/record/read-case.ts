import { type CaseText, type ContentKeys, caseSchema } from './case-schema.js';
import { type Clinic, clinicSchema } from './clinic-schema.js';
import { contradictions } from './contradictions.js';
import { type Formulary, formularySchema } from './formulary-schema.js';
import { bad, good, type Outcome } from './problem.js';
import { type Located, readYaml } from './yaml-file.js';

/** `clinic.yaml` to a checked clinic. */
export const readClinic = (
  text: string,
  file: string,
  { languages }: Pick<ContentKeys, 'languages'>,
): Outcome<Located<Clinic>> => readYaml(text, file, clinicSchema(languages));

/** `formulary.yaml` to the clinic's own doses. */
export const readFormulary = (text: string, file: string): Outcome<Located<Formulary>> =>
  readYaml(text, file, formularySchema);

/** `case.yaml` to a checked record whose fields also agree with one another. */
export function readCase(
  text: string,
  file: string,
  keys: ContentKeys,
): Outcome<Located<CaseText>> {
  const record = readYaml(text, file, caseSchema(keys));
  if (!record.ok) return record;
  const problems = contradictions(record.value);
  // `ofTheEnding` among them has made sure that the record ends in one way.
  return problems.length > 0 ? bad(...problems) : good(record.value as Located<CaseText>);
}
