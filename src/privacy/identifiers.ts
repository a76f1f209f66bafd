import type { CaseFacts } from '../facts/case-facts.js';
import { TELL_NOBODY } from './common-words.js';

/** Something that names the people, the animal, the place or a day of a case. */
export interface Identifier {
  readonly what: string;
  readonly text: string;
}

/** What a case holds beside its facts. */
export interface BesideFacts {
  /** Name of the case folder, and names of the files that its record names. */
  readonly folder: string;
  readonly files: readonly string[];
  /** `YYYY-MM-DD` */
  readonly born: string | null;
  /** Who consented or approved, and when. */
  readonly signed: readonly { readonly by: string | null; readonly on: string | null }[];
  /** Where the calendar file is online: whoever knows it can read the file. */
  readonly calendarAddress: string | null;
}

const NOTHING_BESIDE: BesideFacts = {
  folder: '',
  files: [],
  born: null,
  signed: [],
  calendarAddress: null,
};

/** Hosts of many people's mail: they tell nobody apart. */
const MAIL_FOR_ALL =
  /^(gmail|googlemail|outlook|hotmail|live|yahoo|icloud|me|mac|aol|gmx|proton|protonmail|mail)\./;

/** What names somebody, wherever it was read; null where nothing is told. */
interface Held {
  readonly record: string | null;
  readonly patient: string | null;
  readonly microchip: string | null;
  readonly owner: Readonly<Record<'name' | 'phone' | 'email' | 'address', string | null>>;
  readonly surgeon: string | null;
  readonly anesthetist: string | null;
  readonly others: readonly string[];
  readonly clinic: CaseFacts['identity']['clinic'] | null;
  readonly surgeryDate: string | null;
  readonly days: readonly string[];
  readonly beside: BesideFacts;
}

/**
 * Every identifier that a case holds: whole; names and addresses word by word as well; every day that its facts hold.
 * Initials are none, and neither are words that `common-words.ts` lists as telling nobody apart.
 */
export const identifiersOf = (facts: CaseFacts, beside = NOTHING_BESIDE): Identifier[] =>
  identifiersIn({
    ...facts.identity,
    patient: facts.identity.patientName,
    surgeryDate: facts.surgery.date.value,
    days: daysIn(facts),
    beside,
  });

/**
 * What can be told of the identifiers of a record that is no good: what stands where names, contacts, numbers and days
 * belong. The last output may still tell of its case, and other cases may name its people.
 * @param written the YAML as it was read, whatever it is
 */
export function identifiersOfUnread(written: unknown, folder: string): Identifier[] {
  const held = (path: readonly string[]): unknown =>
    path.reduce<unknown>(
      (holder, key) =>
        typeof holder === 'object' && holder !== null
          ? (holder as Record<string, unknown>)[key]
          : undefined,
      written,
    );
  // A number that lost its quotes names somebody all the same.
  const said = (found: unknown): string | null =>
    typeof found === 'string' || typeof found === 'number' ? `${found}` : null;
  const at = (...path: string[]) => said(held(path));
  /** A list, or one that lost its dashes. */
  const listAt = (...path: string[]) => [held(path)].flat().flatMap((found) => said(found) ?? []);
  const day = (...path: string[]) => at(...path)?.match(/^\d{4}-\d{2}-\d{2}/)?.[0] ?? null;
  return identifiersIn({
    record: at('record'),
    patient: at('patient', 'name'),
    microchip: at('patient', 'microchip'),
    owner: {
      name: at('owner', 'name'),
      phone: at('owner', 'phone'),
      email: at('owner', 'email'),
      address: at('owner', 'address'),
    },
    surgeon: at('team', 'surgeon'),
    anesthetist: at('team', 'anesthesia'),
    others: listAt('team', 'others'),
    clinic: null,
    surgeryDate: day('surgery', 'date'),
    days: [],
    beside: {
      ...NOTHING_BESIDE,
      folder,
      born: day('patient', 'born'),
      signed: ['teaching', 'record', 'photos', 'questions'].map((kind) => ({
        by: at('consent', kind, 'by'),
        on: day('consent', kind, 'on'),
      })),
    },
  });
}

function identifiersIn(held: Held): Identifier[] {
  const { owner, clinic, beside } = held;
  const names: Identifier[] = [
    ...optional("the patient's name", held.patient),
    ...optional("the owner's name", owner.name),
    ...optional("the surgeon's name", held.surgeon),
    ...optional("the clinic's name", clinic?.name),
    ...optional("the night clinic's name", clinic?.emergency?.name),
    ...optional("the anesthetist's name", held.anesthetist),
    ...held.others.map((text) => ({ what: 'the name of one who took part', text })),
    ...beside.signed.flatMap(({ by }) => optional('the name of one who signed', by)),
  ];
  const addresses: Identifier[] = [
    ...(clinic?.address ?? []).map((text) => ({ what: "the clinic's address", text })),
    ...optional("the owner's address", owner.address),
  ];
  const days: Identifier[] = [
    ...optional('the date of surgery', held.surgeryDate),
    ...optional('the date of birth', beside.born),
    ...beside.signed.flatMap(({ on }) => optional('the date of a signature', on)),
    ...held.days.map((text) => ({ what: 'a day of the case', text })),
  ];
  const all = [
    ...optional('the record number', held.record),
    ...names,
    ...addresses,
    ...addresses.flatMap(({ what, text }) => text.split(',').map((part) => ({ what, text: part }))),
    // What a word is called first is how a problem calls it: a name rather than a part of an address for mail.
    ...[...names, ...addresses].flatMap(({ what, text }) =>
      wordsOf(text).map((word) => ({ what, text: word })),
    ),
    ...optional("the clinic's telephone number", clinic?.phone),
    ...optional("the night clinic's telephone number", clinic?.emergency?.phone),
    ...optional('the microchip number', held.microchip),
    ...optional("the owner's telephone number", owner.phone),
    ...emailOf(owner.email),
    ...onlineOf(beside.calendarAddress),
    ...[beside.folder, ...beside.files.map(stem)]
      .filter(tellsSomeone)
      .map((text) => ({ what: 'the name of a file or folder of the case', text })),
    ...days,
  ];
  const seen = new Set<string>();
  return all.filter(({ text }) => {
    if (text.trim() === '' || seen.has(text)) return false;
    seen.add(text);
    return true;
  });
}

function optional(what: string, text: string | null | undefined): Identifier[] {
  return text === null || text === undefined ? [] : [{ what, text }];
}

/** The telling words of a name, and the parts of those that are joined by a dash or an apostrophe. */
function wordsOf(name: string): string[] {
  const whole = name.split(/[\s,;/()&.]+/u);
  const parts = whole.flatMap((word) => word.split(/[^\p{L}\p{N}\p{M}]+/u));
  // An abbreviation, but not where the whole name stands in capitals.
  const isShort = (word: string) => word === word.toUpperCase() && /\p{Ll}/u.test(name);
  const telling = (word: string) =>
    [...word].filter((letter) => /\p{L}/u.test(letter)).length >= (isShort(word) ? 4 : 3) &&
    !TELL_NOBODY.has(word.toLowerCase());
  return [...new Set([...whole, ...parts])].filter(
    (word) => telling(word) || isShortOfAnotherScript(word),
  );
}

/** A family name may be one sign. */
const isShortOfAnotherScript = (word: string) =>
  /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}]{2,}$/u.test(word);

function emailOf(email: string | null): Identifier[] {
  if (email === null) return [];
  const what = "the owner's e-mail address";
  const [local, host] = email.split('@');
  return [
    { what, text: email },
    ...(local !== undefined && tellsSomeone(local) ? [{ what, text: local }] : []),
    ...(host === undefined || MAIL_FOR_ALL.test(host) ? [] : [{ what, text: host }]),
  ];
}

function onlineOf(address: string | null): Identifier[] {
  if (address === null) return [];
  const what = "the calendar's address";
  const [, host, path] = /^\w+:\/\/([^/]+)\/?(.*)$/.exec(address) ?? [];
  // The host without the name of the machine in it: the clinic's own domain.
  const domain = host?.split('.').slice(-2).join('.');
  return [address, host, domain, path?.split('/').at(-1)]
    .filter((text) => text !== undefined)
    .map((text) => ({ what, text }));
}

const stem = (file: string): string => file.replace(/\.[a-z]{2,4}$/i, '');

/** Whether a made-up name says more than what kind of thing it names: a long number, or a word that is none of these. */
function tellsSomeone(name: string): boolean {
  return (name.match(/\p{L}+|\d+/gu) ?? []).some((part) =>
    /^\d/.test(part)
      ? part.length >= 5
      : part.length >= 4 &&
        !OF_RECORDS.has(part.toLowerCase()) &&
        !TELL_NOBODY.has(part.toLowerCase()),
  );
}

const OF_RECORDS = new Set(
  `strip strips vitals trend trends teaching remarks case cases record photo photos image picture wound before after
  monitor data lead export file scan copy final draft test demo surgery anesthesia anaesthesia
  rabbit ferret horse patient tumor tumour mass lump spay neuter castration dental fracture info office hello contact
  mail home family left right heart heartbeat ventilator beat beats early late open closed rhythm pressure
  with without from that this over under first last`.split(/\s+/),
);

/** Every day that stands anywhere among the facts. */
function daysIn(facts: CaseFacts): string[] {
  const days = new Set<string>();
  const visit = (value: unknown): void => {
    if (typeof value === 'string') {
      const day = /^(\d{4}-\d{2}-\d{2})(?!\d)/.exec(value)?.[1];
      if (day !== undefined) days.add(day);
    } else if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value)) {
      for (const each of Object.values(value)) visit(each);
    }
  };
  visit(facts);
  return [...days];
}
