import { Temporal } from 'temporal-polyfill';
import { type CaseText, CONSENTS } from './case-schema.js';
import { localTime } from './moments.js';
import type { Problem } from './problem.js';
import type { ProblemKind } from './problem-kind.js';
import type { Located } from './yaml-file.js';

/**
 * Hours before the anesthesia in which what was done and given still belongs to it; earlier than that a date is wrong.
 * Not a clinical number.
 */
const LONGEST_BEFORE = 48;

/** Fields that are each well formed but cannot be true together. */
export function contradictions(record: Located<CaseText>): Problem[] {
  const { value, at } = record;
  const problems: Problem[] = [];
  const day = value.surgery.date;
  const time = (written: string) => localTime(written, day);
  const add = (
    kind: ProblemKind,
    path: readonly (string | number)[],
    found: string,
    expected: string,
    mend: string,
  ): number => problems.push({ kind, ...at(...path), found, expected, mend });
  const earlier = (a: string, b: string) => Temporal.PlainDateTime.compare(time(a), time(b)) < 0;
  const begin = value.anesthesia.begin;

  if (value.patient.born === undefined && value.patient.age === undefined) {
    add(
      'an age that is not told once',
      ['patient', 'born'],
      'nothing',
      'a date of birth or an age',
      'Add "born:" or "age:".',
    );
  }
  if (value.patient.born !== undefined && value.patient.age !== undefined) {
    add(
      'an age that is not told once',
      ['patient', 'age'],
      'both a date of birth and an age',
      'one of them',
      'Remove "age:".',
    );
  }
  if (value.patient.born !== undefined && value.patient.born > day) {
    add(
      'moments out of order',
      ['patient', 'born'],
      value.patient.born,
      `a day not later than the surgery on ${day}`,
      'Mend one of the two dates.',
    );
  }
  if (!earlier(begin, value.anesthesia.end)) {
    add(
      'moments out of order',
      ['anesthesia', 'end'],
      value.anesthesia.end,
      `a time after the start of anesthesia at ${begin}`,
      'After midnight, write the date as well: YYYY-MM-DD HH:MM.',
    );
  }
  const { begin: cut, end: done, discharge } = value.surgery;
  if (cut !== undefined && earlier(cut, begin)) {
    add(
      'moments out of order',
      ['surgery', 'begin'],
      cut,
      `a time after the start of anesthesia at ${begin}`,
      'Mend one of the two.',
    );
  }
  if (cut !== undefined && done !== undefined && !earlier(cut, done)) {
    add(
      'moments out of order',
      ['surgery', 'end'],
      done,
      `a time after the first incision at ${cut}`,
      'Mend one of the two.',
    );
  }
  if (done !== undefined && earlier(value.anesthesia.end, done)) {
    add(
      'moments out of order',
      ['surgery', 'end'],
      done,
      `a time not after the end of anesthesia at ${value.anesthesia.end}`,
      'Mend one of the two.',
    );
  }
  if (earlier(discharge, value.anesthesia.end)) {
    add(
      'moments out of order',
      ['surgery', 'discharge'],
      discharge,
      `a time after the end of anesthesia at ${value.anesthesia.end}`,
      'Mend the time, or write the date as well.',
    );
  }
  if (value.anesthesia.breathing === 'spontaneous' && value.anesthesia['ventilator rate']) {
    add(
      'a ventilator rate without a ventilator',
      ['anesthesia', 'ventilator rate'],
      value.anesthesia['ventilator rate'].written,
      'no ventilator rate, as the patient breathes by itself',
      'Remove it, or write "breathing: ventilator".',
    );
  }
  if (value.closure.healing === 'edge to edge' && value.closure.layers.length === 0) {
    add(
      'a closure that contradicts itself',
      ['closure', 'layers'],
      'no layers',
      'what holds the edges together',
      'Add the layers.',
    );
  }
  if (value.closure.healing === 'left open' && value.closure['edge gap'].value === 0) {
    add(
      'a closure that contradicts itself',
      ['closure', 'edge gap'],
      value.closure['edge gap'].written,
      'a distance above zero, as the wound is left open',
      'Write the distance between the edges.',
    );
  }
  if (value.closure.healing === 'edge to edge' && value.closure.bandage === 'no') {
    add(
      'a closure that contradicts itself',
      ['closure', 'bandage'],
      'no bandage over joined edges',
      'the line only where a wound is left open, as the sheet speaks of no bandage over joined edges',
      'Remove it.',
    );
  }
  for (const [index, { layer, material, size, pattern }] of value.closure.layers.entries()) {
    const glued = material === 'tissue adhesive';
    if (glued && layer !== 'skin') {
      add(
        'a layer that contradicts itself',
        ['closure', 'layers', index, 'material'],
        `tissue adhesive in the layer "${layer}"`,
        'a strand, as tissue adhesive only joins the surface of the skin',
        'Mend the layer or the material.',
      );
    }
    if (glued !== (pattern === 'adhesive film')) {
      add(
        'a layer that contradicts itself',
        ['closure', 'layers', index, 'pattern'],
        `the pattern "${pattern}" with ${material}`,
        'the pattern "adhesive film" with tissue adhesive, and only with it',
        'Mend the pattern or the material.',
      );
    }
    if (size !== undefined && (glued || material === 'stainless steel staples')) {
      add(
        'a layer that contradicts itself',
        ['closure', 'layers', index, 'size'],
        `a USP size of ${material}`,
        'a size only where there is a strand',
        'Remove it.',
      );
    }
  }
  const inTheClinic = [
    ...value.anesthesia.drugs.map(({ at: told }, index) => ({
      told,
      path: ['anesthesia', 'drugs', index, 'at'],
    })),
    ...value.events.map(({ at: told }, index) => ({ told, path: ['events', index, 'at'] })),
  ];
  for (const { told, path } of inTheClinic) {
    const early = time(told).until(time(begin)).total('hours') > LONGEST_BEFORE;
    if (!early && !earlier(discharge, told)) continue;
    add(
      'moments out of order',
      path,
      told,
      early
        ? `a time at most ${LONGEST_BEFORE} hours before the start of anesthesia at ${begin}`
        : `a time before the patient goes home at ${discharge}`,
      'Mend the time or the date.',
    );
  }
  for (const [what, field] of [
    ['first incision', 'begin'],
    ['end of surgery', 'end'],
  ] as const) {
    const told = value.surgery[field];
    const index = value.events.findIndex((event) => event.what === what);
    const at = value.events[index]?.at;
    if (told === undefined || at === undefined) continue;
    if (Math.abs(time(told).until(time(at)).total('minutes')) < 1) continue;
    add(
      'a moment told in two ways',
      ['events', index, 'at'],
      `${what} at ${at}`,
      `${told}, as surgery.${field} says`,
      'Mend one of the two, or leave the event out: it follows from the other.',
    );
  }
  const died = value.events.findIndex(({ what }) => what === 'death');
  if (died >= 0) {
    add(
      'a patient that died',
      ['events', died, 'what'],
      'a death',
      'a patient that goes home, as every sheet of this program is for care at home',
      'Speak and write to the owner yourself, and take the folder out of the cases; nothing is printed of it.',
    );
  }
  const removeOn = value.closure['remove on'];
  if (removeOn !== undefined && removeOn <= day) {
    add(
      'moments out of order',
      ['closure', 'remove on'],
      removeOn,
      `a day after the surgery on ${day}`,
      'Mend one of the two dates.',
    );
  }
  const { rest, food, 'full activity after': full } = value.home;
  const days = (span: typeof rest) => (span.unit === 'weeks' ? span.value * 7 : span.value);
  if (full !== undefined && days(full) < days(rest)) {
    add(
      'full activity before the end of rest',
      ['home', 'full activity after'],
      full.written,
      `not less than the rest of ${rest.written}`,
      'Mend one of the two.',
    );
  }
  if (food !== undefined && earlier(food.from, value.anesthesia.end)) {
    add(
      'moments out of order',
      ['home', 'food', 'from'],
      food.from,
      `a time after the end of anesthesia at ${value.anesthesia.end}`,
      'Mend the time, or write the date as well.',
    );
  }
  for (const [index, strip] of value.monitor.strips.entries()) {
    if (strip.begin !== undefined && earlier(strip.begin, begin)) {
      add(
        'moments out of order',
        ['monitor', 'strips', index, 'begin'],
        strip.begin,
        `a time after the start of anesthesia at ${begin}`,
        'Mend one of the two.',
      );
    }
  }
  for (const [index, { from, to }] of value.monitor['off patient'].entries()) {
    if (from !== undefined && to !== undefined && earlier(to, from)) {
      add(
        'moments out of order',
        ['monitor', 'off patient', index, 'to'],
        to,
        `a time after ${from}, from when the sensor was off`,
        'Mend one of the two; after midnight, write the date as well.',
      );
    }
  }
  const consents = CONSENTS.filter((kind) => value.consent[kind].given === 'yes');
  for (const kind of consents) {
    const consent = value.consent[kind];
    if (consent.by === undefined || consent.on === undefined) {
      add(
        'consent that is not complete',
        ['consent', kind, 'given'],
        'yes, without a name or a date',
        'who gave consent and when',
        'Add "by:" and "on:".',
      );
    }
  }
  for (const kind of CONSENTS) {
    const { given, on, withdrawn } = value.consent[kind];
    if (withdrawn === undefined) continue;
    if (given === 'no') {
      add(
        'a withdrawal without consent',
        ['consent', kind, 'withdrawn'],
        `${withdrawn}, of a consent that was not given`,
        'a withdrawal only of what was given',
        'Remove it, or write "given: yes" with who gave it and when.',
      );
    } else if (on !== undefined && withdrawn < on) {
      add(
        'moments out of order',
        ['consent', kind, 'withdrawn'],
        withdrawn,
        `a day not before consent was given on ${on}`,
        'Mend one of the two dates.',
      );
    }
  }
  const teaches =
    value.consent.teaching.given === 'yes' && value.consent.teaching.withdrawn === undefined;
  for (const [index, { on }] of value.photos.entries()) {
    if (teaches && on.includes('teaching page') && value.consent.photos.given === 'no') {
      add(
        'a photo without consent',
        ['photos', index, 'on'],
        'the teaching page, without consent to photos',
        'photos there only where the owner allows them',
        'Take "teaching page" out, or write under "consent" who allowed photos and when.',
      );
    }
  }
  for (const [index, { decision, because }] of value['public passages'].entries()) {
    if (decision === 'publish' && because === undefined) {
      add(
        'a decision without a reason',
        ['public passages', index, 'decision'],
        'publish, without a reason',
        'why the passage leads to nobody',
        'Add "because:".',
      );
    }
  }
  if (consents.length > 0 && value.published === undefined) {
    add(
      'a public case without its public words',
      ['published'],
      'nothing',
      'how the case appears in public, as consent is given',
      'Add "published:" with title, patient and address.',
    );
  }
  return problems;
}
