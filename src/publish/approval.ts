import { createHash } from 'node:crypto';
import { basename, dirname, join } from 'node:path';
import { stringify } from 'yaml';
import { type CaseFacts, goesHome } from '../facts/case-facts.js';
import { digestOf, statedFacts } from '../facts/digest.js';
import { type Standing, standingOf } from '../facts/standing.js';
import {
  APPROVAL_FILE,
  type Approval,
  approvalSchema,
  readApprovals,
} from '../record/approval-schema.js';
import { bad, good, type Outcome } from '../record/problem.js';
import type { Language } from '../words/language.js';
import { statementsOf } from '../words/owner/statements.js';
import { type Effects, readText } from './effects.js';
import type { LoadedCase, PhotoFile } from './load-case.js';
import { writeWhole } from './write-whole.js';

/** How a case stands with its approvals. */
export interface CaseStanding {
  readonly sheet: Standing;
  /** Whether what the teaching page has beside the facts is approved as well. */
  readonly teaching: boolean;
}

interface Approvable {
  readonly facts: CaseFacts;
  readonly remarks: string;
  readonly photos: readonly PhotoFile[];
}

/** Digests of all that the documents of a case say: facts and the owner's photos, and what only the teaching page has. */
function digestsOf({ facts, remarks, photos }: Approvable) {
  const on = (document: PhotoFile['on'][number]) =>
    photos
      .filter((photo) => photo.on.includes(document))
      .map(({ shows, bytes }) => [shows, createHash('sha256').update(bytes).digest('hex')]);
  return {
    digest: digestOf([statedFacts(facts), on('owner sheet')]),
    teaching: digestOf([remarks, on('teaching page')]),
  };
}

/** Reads the approvals of a case folder, if there are any, and sets them against what the case says now. */
export function readStanding(
  folder: string,
  said: Approvable,
  effects: Effects,
): Outcome<CaseStanding> {
  const file = join(folder, APPROVAL_FILE);
  const { digest, teaching } = digestsOf(said);
  if (!effects.exists(file)) return good({ sheet: standingOf([], digest), teaching: false });
  const text = readText(effects, file);
  if (!text.ok) return text;
  const approvals = readApprovals(text.value, file);
  if (!approvals.ok) return approvals;
  const sheet = standingOf(approvals.value, digest);
  return good({
    sheet,
    teaching: sheet.approved && approvals.value.at(-1)?.teaching === teaching,
  });
}

export interface Approver {
  readonly by: string;
  /** `YYYY-MM-DD` */
  readonly on: string;
}

/** The case approved as it stands, put after all earlier approvals. Nothing is written. */
export function approve(
  loaded: LoadedCase,
  { by, on }: Approver,
  language: Language,
): Outcome<readonly Approval[]> {
  const { approvals } = loaded.standing.sheet;
  const last = approvals.at(-1);
  const earliest = last?.on ?? loaded.facts.surgery.date.value;
  if (on < earliest) {
    return bad({
      kind: 'a day of approval that is too early',
      file: join(dirname(loaded.file), APPROVAL_FILE),
      field: '--on',
      found: on,
      expected: last
        ? `a day not before the last approval on ${earliest}`
        : `a day not before the surgery on ${earliest}`,
      mend: `Write the day of the approval, ${earliest} or later: --on ${earliest}`,
    });
  }
  return good([
    ...approvals,
    {
      revision: approvals.length + 1,
      by,
      on,
      ...digestsOf(loaded),
      statements: goesHome(loaded.facts)
        ? statementsOf(loaded.facts, language)
        : { medicines: [], asNeeded: [], days: [], parts: {} },
    },
  ]);
}

/** Writes the approvals of a case folder; the file stays whole whatever happens. */
export function writeApprovals(
  caseFile: string,
  approvals: readonly Approval[],
): Outcome<readonly Approval[]> {
  const file = join(dirname(caseFile), APPROVAL_FILE);
  const name = basename(dirname(caseFile));
  const text = [
    `# Approvals of ${name}, written by "thrice approve". Do not edit: a sheet is approved only while it says exactly this.`,
    stringify(approvalSchema.parse({ approvals }), { lineWidth: 0 }),
  ].join('\n');
  const written = writeWhole(file, new TextEncoder().encode(text), 'may not');
  return written.ok ? good(approvals) : written;
}
