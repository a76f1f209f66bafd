import { z } from 'zod';
import { date } from './moments.js';
import type { Outcome } from './problem.js';
import { refused } from './refusal.js';
import { text } from './words.js';
import { readYaml } from './yaml-file.js';

/** The name of the file in a case folder that holds its approvals. */
export const APPROVAL_FILE = 'approval.yaml';

const digest = (meaning: string) => {
  const expected = `${meaning}: 64 digits from 0 to f`;
  return z.string({ error: expected }).regex(/^[0-9a-f]{64}$/, { error: expected });
};

/** A local time with its distance from UTC, `2026-03-10T20:00-05:00`. */
const zoned = z
  .string({ error: 'the time of a dose' })
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?[+-]\d{2}:\d{2}$/, {
    error: 'a time of a dose such as 2026-03-10T20:00-05:00',
  });

/** What is kept of every medicine. */
const medicine = {
  drug: text('the medicine'),
  strength: text('its strength'),
  amount: text('the amount at one time'),
  how: text('how it is given'),
};

/** What an owner's sheet said, in the owner's language, so that a later sheet can name what has changed. */
const statements = z.strictObject({
  medicines: z.array(z.strictObject({ ...medicine, doses: z.array(zoned) })),
  /** None where an approval was written before a sheet could tell of them. */
  asNeeded: z
    .array(
      z.strictObject({
        ...medicine,
        sign: text('what calls for it'),
        limits: text('how long to wait, how often at most, from and until when'),
      }),
    )
    .default([]),
  days: z.array(
    z.strictObject({
      fact: text('the path of the fact that sets the day'),
      what: text('what falls on the day'),
      on: date('the day').nullable(),
    }),
  ),
  /** Other parts of the sheet by their titles. */
  parts: z.record(z.string(), z.string()),
});

const approval = z.strictObject({
  revision: z.int({ error: 'the number of the revision' }).min(1, { error: 'at least 1' }),
  by: text('the veterinarian who approved'),
  on: date('the day of the approval'),
  digest: digest('the digest of the approved facts'),
  teaching: digest("the digest of the teaching page's remarks and photos"),
  statements,
});

/** `approval.yaml`: every approval of a case, the first one first. */
export const approvalSchema = z
  .strictObject({ approvals: z.array(approval).min(1, { error: 'at least one approval' }) })
  .superRefine(({ approvals }, context) => {
    for (const [index, { revision }] of approvals.entries()) {
      if (revision === index + 1) continue;
      context.addIssue({
        ...refused({
          kind: 'approvals out of order',
          found: `revision ${revision}`,
          expected: `revision ${index + 1}`,
          mend: 'Put the file back as "thrice approve" wrote it.',
        }),
        path: ['approvals', index, 'revision'],
      });
    }
  });

export type Approval = z.output<typeof approval>;
export type Statements = z.output<typeof statements>;

/** The approvals that a case folder holds. */
export function readApprovals(content: string, file: string): Outcome<readonly Approval[]> {
  const read = readYaml(content, file, approvalSchema);
  return read.ok ? { ok: true, value: read.value.value.approvals } : read;
}
