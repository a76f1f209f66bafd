import type { CaseFacts } from '../../facts/case-facts.js';
import { NEVER_APPROVED, type Standing } from '../../facts/standing.js';
import type { Block, Handout } from '../handout.js';
import type { Language } from '../language.js';
import { type Photo, photoBlocks } from '../photos.js';
import { afterSurgery } from './after-surgery.js';
import { approvedBy, draftMark, news } from './approval.js';
import { dates } from './dates.js';
import { firstThing } from './first-thing.js';
import { medicines } from './medicines.js';
import { monitor } from './monitor.js';
import { type CalendarCode, onThePhone } from './on-the-phone.js';
import { warningSigns } from './warning-signs.js';
import { wound } from './wound.js';

/** One part of the owner's sheet. */
export type OwnerSection = (facts: CaseFacts, language: Language) => readonly Block[];

/** In the order in which an owner needs them. */
const SECTIONS: readonly OwnerSection[] = [
  firstThing,
  warningSigns,
  afterSurgery,
  medicines,
  wound,
  dates,
  monitor,
];

/** The discharge sheet that the owner takes home. */
export function ownerSheet(
  facts: CaseFacts,
  language: Language,
  photos: readonly Photo[],
  standing: Standing = NEVER_APPROVED,
  phone: CalendarCode | null = null,
): Handout {
  const { identity, surgery } = facts;
  const { owner, clock, procedures } = language;
  const patient = identity.patientName;
  return {
    reader: 'owner',
    language: language.tag,
    paper: identity.clinic.paper,
    ...(identity.owner.largeType && { largeType: true as const }),
    title: owner.text('title', { patient }),
    lead: owner.text('lead', {
      procedure: procedures.text(`${surgery.procedure.value}.owner.name`),
      date: clock.fullDay(surgery.date.value),
    }),
    // The telephones stand where they are needed, beside the reasons to call.
    sender: [identity.clinic.name, identity.clinic.address.join(', ')],
    draft: draftMark(standing, language),
    foot: owner.text('foot', { clinic: identity.clinic.name, record: identity.record }),
    dated: surgery.date.value,
    ...(phone && { code: onThePhone(phone, language) }),
    blocks: [
      ...news(facts, language, standing),
      ...SECTIONS.flatMap((section) => section(facts, language)),
      { kind: 'paragraph', said: owner.say('caution', { patient }) },
      ...approvedBy(standing, language),
      ...photoBlocks(photos),
    ],
  };
}
