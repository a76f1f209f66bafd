import type { CaseFacts, Consent } from '../facts/case-facts.js';

/** Something that names the people, the animal or the place of a case. */
export interface Identifier {
  readonly what: string;
  readonly text: string;
}

/** Single words of a name that are too common to tell anyone apart. */
const COMMON = new Set([
  'the',
  'and',
  'dr',
  'dra',
  'of',
  'for',
  'clinic',
  'animal',
  'animals',
  'veterinary',
  'hospital',
  'night',
  'lane',
  'street',
  'road',
  'row',
  'de',
  'la',
  'del',
]);

/** Every identifier that a case's record holds, whole and, for names, word by word. */
export function identifiersOf({ identity, surgery, consent }: CaseFacts): Identifier[] {
  const { owner, clinic } = identity;
  const whole: Identifier[] = [
    { what: 'the record number', text: identity.record },
    { what: "the patient's name", text: identity.patientName },
    { what: "the owner's name", text: owner.name },
    { what: "the surgeon's name", text: identity.surgeon },
    { what: "the clinic's name", text: clinic.name },
    { what: "the clinic's telephone number", text: clinic.phone },
    { what: "the night clinic's name", text: clinic.emergency.name },
    { what: "the night clinic's telephone number", text: clinic.emergency.phone },
    { what: 'the date of surgery', text: surgery.date.value },
    ...clinic.address.map((text) => ({ what: "the clinic's address", text })),
    ...optional('the microchip number', identity.microchip),
    ...optional("the owner's telephone number", owner.phone),
    ...optional("the owner's e-mail address", owner.email),
    ...optional("the owner's address", owner.address),
    ...optional("the anesthetist's name", identity.anesthetist),
    ...consenting(Object.values(consent), owner.name),
  ];
  const words = whole
    .filter(({ what }) => /(name|'s address)$/.test(what))
    .flatMap(({ what, text }) =>
      text
        .split(/[^\p{L}\p{N}]+/u)
        .filter(
          (word) => word.length >= 4 && !COMMON.has(word.toLowerCase()) && !/^\d+$/.test(word),
        )
        .map((word) => ({ what, text: word })),
    );
  return [...whole, ...words];
}

/** Who gave consent need not be the owner. */
const consenting = (consents: readonly Consent[], owner: string): Identifier[] =>
  [...new Set(consents.flatMap(({ by }) => (by === null || by === owner ? [] : [by])))].map(
    (text) => ({
      what: "the consenting person's name",
      text,
    }),
  );

function optional(what: string, text: string | null): Identifier[] {
  return text === null ? [] : [{ what, text }];
}
