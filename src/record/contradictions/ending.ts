import type { Told } from './told.js';

/**
 * Days after the anesthesia in which a death is still told as one of this surgery: later than that a date is wrong, or the
 * death is another story. Own choice, not a clinical number.
 */
const LATEST_DEATH = 7;

/** A record ends in one way: the patient goes home, with all that is to do there, or it died, and there is nothing of that. */
export function ofTheEnding(told: Told): void {
  const deaths = told.value.events.flatMap(({ what, at }, index) =>
    what === 'death' ? [{ at, index }] : [],
  );
  const [death, again] = deaths;
  if (!death) {
    wayHome(told);
    return;
  }
  if (again) {
    told.add(
      'a moment told in two ways',
      ['events', again.index, 'at'],
      `a second death at ${again.at}`,
      `one, as a death stands at ${death.at}`,
      'Take one of the two out. A heart that was started again is a remark.',
    );
  }
  noWayHome(told);
  afterTheDeath(told, death.at);
}

function wayHome({ value, add }: Told): void {
  const missing = (path: string[], expected: string) =>
    add(
      'a missing key',
      path,
      'nothing',
      expected,
      'Add it. Where the patient died, add "what: death" with its time under events instead.',
    );
  if (value.surgery.discharge === undefined) {
    missing(['surgery', 'discharge'], 'when the patient goes home, such as 16:30');
  }
  if (value.closure === undefined) {
    missing(['closure'], 'how the wound was closed, as the patient goes home with it');
  }
  if (value.home === undefined) {
    missing(['home'], 'the care at home, with "rest:" at least');
  }
}

function noWayHome({ value, add }: Told): void {
  const { discharge, 'note to owner': note } = value.surgery;
  const told: readonly (readonly [told: boolean, ...path: (string | number)[]])[] = [
    [discharge !== undefined, 'surgery', 'discharge'],
    [note !== undefined, 'surgery', 'note to owner'],
    [value.closure !== undefined, 'closure'],
    [value.home !== undefined, 'home'],
    ...value.photos.map(
      ({ on }, index) => [on.includes('owner sheet'), 'photos', index, 'on'] as const,
    ),
  ];
  for (const [isTold, ...path] of told) {
    if (!isTold) continue;
    add(
      'home care for a patient that died',
      path,
      'what only a sheet for care at home says',
      'none of it, as the events tell a death',
      'Take it out, and speak and write to the owner yourself: no sheet is made. What was sewn may stand in the remark of an event.',
    );
  }
}

function afterTheDeath({ value, time, earlier, add }: Told, death: string): void {
  const late = (path: (string | number)[], at: string) => {
    if (!earlier(death, at)) return;
    add(
      'moments out of order',
      path,
      at,
      `a time not after the death at ${death}`,
      'Mend one of the two; write the date as well where it is another day.',
    );
  };
  late(['anesthesia', 'end'], value.anesthesia.end);
  for (const [index, { at }] of value.anesthesia.drugs.entries()) {
    late(['anesthesia', 'drugs', index, 'at'], at);
  }
  for (const [index, { at, what }] of value.events.entries()) {
    if (what !== 'death') late(['events', index, 'at'], at);
  }
  if (time(value.anesthesia.end).until(time(death)).total('days') > LATEST_DEATH) {
    add(
      'moments out of order',
      ['events', value.events.findIndex(({ what }) => what === 'death'), 'at'],
      death,
      `a time at most ${LATEST_DEATH} days after the end of anesthesia at ${value.anesthesia.end}`,
      'Mend the date or the time.',
    );
  }
}
