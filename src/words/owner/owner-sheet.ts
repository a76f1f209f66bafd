import type { HomeCase } from '../../facts/case-facts.js';
import { NEVER_APPROVED, type Standing } from '../../facts/standing.js';
import type { Block, Handout } from '../handout.js';
import type { Language } from '../language.js';
import { type Photo, photoBlocks } from '../photos.js';
import { afterSurgery, firstNight } from './after-surgery.js';
import { approvedBy, draftMark, news } from './approval.js';
import { awaited } from './awaited.js';
import { different } from './different.js';
import { firstThing } from './first-thing.js';
import { inShort } from './in-short.js';
import { medicines } from './medicines.js';
import { monitor } from './monitor.js';
import { type CalendarCode, onThePhone } from './on-the-phone.js';
import { plan } from './plan.js';
import { callNow, tellLater } from './warning-signs.js';
import { wound } from './wound.js';

/** One part of the owner's sheet. */
export type OwnerSection = (facts: HomeCase, language: Language) => readonly Block[];

/** Short parts side by side; one alone where the other has nothing to say. */
const pair =
  (left: OwnerSection, right: OwnerSection): OwnerSection =>
  (facts, language) => {
    const [one, other] = [left(facts, language), right(facts, language)];
    return one.length > 0 && other.length > 0
      ? [{ kind: 'beside', left: one, right: other }]
      : [...one, ...other];
  };

const oneAfterTheOther =
  (...sections: readonly OwnerSection[]): OwnerSection =>
  (facts, language) =>
    sections.flatMap((section) => section(facts, language));

/** In the order in which an owner needs them: what the first night asks for comes before what the next days do. */
const SECTIONS: readonly OwnerSection[] = [
  pair(firstThing, inShort),
  firstNight,
  medicines,
  callNow,
  afterSurgery,
  wound,
  plan,
  awaited,
  pair(tellLater, oneAfterTheOther(different, monitor)),
];

/** In large type a page holds little: when not to wait, and whom to call, stand on the first one. */
const IN_LARGE_TYPE: readonly OwnerSection[] = [
  callNow,
  firstThing,
  inShort,
  ...SECTIONS.slice(1).filter((section) => section !== callNow),
];

/** The discharge sheet that the owner takes home. */
export function ownerSheet(
  facts: HomeCase,
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
    // The telephones stand beside the reasons to call, and at the head for whoever has no time to look for them.
    sender: [
      identity.clinic.name,
      owner.text('call.sender', {
        told: identity.clinic.address.length > 0 ? 'yes' : 'no',
        address: identity.clinic.address.join(', '),
        day: oneWord(identity.clinic.phone),
        closes: identity.clinic.emergency ? 'yes' : 'no',
        night: oneWord(identity.clinic.emergency?.phone ?? ''),
      }),
    ],
    draft: draftMark(standing, language),
    foot: owner.text('foot', { clinic: identity.clinic.name, record: identity.record, patient }),
    dated: surgery.date.value,
    ...(phone && { code: onThePhone(phone, language) }),
    blocks: [
      ...news(facts, language, standing),
      ...(identity.owner.largeType ? IN_LARGE_TYPE : SECTIONS).flatMap((section) =>
        section(facts, language),
      ),
      ...approvedBy(standing, language),
      ...photoBlocks(photos),
    ],
  };
}

/** A number is dialled from one line. */
const oneWord = (number: string): string => number.replaceAll(' ', '\u00a0');
