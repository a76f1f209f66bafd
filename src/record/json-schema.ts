import { z } from 'zod';
import { type ContentKeys, caseSchema } from './case-schema.js';
import { clinicSchema } from './clinic-schema.js';
import { formularySchema } from './formulary-schema.js';

/**
 * The record's files as JSON Schema 2020-12, with which an editor completes keys and marks mistakes while one writes.
 * It knows the form only: what a date, a unit or a set of fields means is checked when the record is read.
 */
export const jsonSchemas = (keys: ContentKeys) => ({
  'case.schema.json': asJson('case.yaml', caseSchema(keys)),
  'clinic.schema.json': asJson('clinic.yaml', clinicSchema(keys.languages)),
  'formulary.schema.json': asJson('formulary.yaml', formularySchema),
});

const asJson = (title: string, schema: z.ZodType) => ({
  title,
  ...z.toJSONSchema(schema, { io: 'input' }),
});
