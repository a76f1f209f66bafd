import { basename } from 'node:path';
import { serialize } from 'node:v8';
import { type CaseFacts, goesHome } from '../facts/case-facts.js';
import type { Telling } from '../privacy/passages.js';
import { traitsOf } from '../privacy/public-facts.js';
import type { Grouped, Traits } from '../privacy/small-groups.js';
import { type Claims, claimsOf, collisions } from '../publish/claims.js';
import { clearCase } from '../publish/clear-case.js';
import type { Effects } from '../publish/effects.js';
import { decideGroups, type Groups } from '../publish/groups.js';
import { loadOne } from '../publish/load.js';
import type { LoadedCase } from '../publish/load-case.js';
import { digestOf } from '../publish/store/digest.js';
import { stateOf } from '../publish/trees.js';
import type { Outcome, Problem, Warning } from '../record/problem.js';
import { analyseStrip } from '../signal/analyse.js';
import { latest } from '../units/latest.js';
import type { Language } from '../words/language.js';
import { type Environment, type Ground, groundOf } from './ground.js';
import { noting } from './noted.js';

/** A case folder and what is known of it. */
export interface DeskCase {
  readonly folder: string;
  /** Name of the folder. */
  readonly name: string;
  /** Goes up whenever the case is read. */
  serial: number;
  /** What came of the last reading; null before the first. */
  read: CaseRead | null;
  /** What the last reading that succeeded told, so that a case with a problem is still found at its address. */
  known: Brief | null;
}

interface CaseRead {
  readonly brief: Brief | null;
  readonly problems: readonly Problem[];
  readonly isUnchanged: () => boolean;
  /** Whether its problems may be told: a file that is just being saved may be half there for a moment. */
  isSettled: boolean;
}

/** What stays in memory of every case that could be read. */
export interface Brief {
  readonly patient: string;
  /** Whether there is a sheet for its owner. */
  readonly goesHome: boolean;
  readonly claims: Claims;
  readonly traits: Traits;
  /** Whether its author's words may be public; null where it publishes nothing. */
  readonly cleared: boolean | null;
  readonly telling: Telling | null;
  readonly publishes: Readonly<Record<'teaching' | 'record', boolean>>;
  readonly state: string;
  readonly surgery: CaseFacts['surgery'];
  readonly warnings: readonly Warning[];
}

/** Cases whose samples and pictures stay in memory. Not a clinical number. */
const CASES_IN_MEMORY = 4;

/** Strips whose analysis stays in memory. Not a clinical number. */
const STRIPS_IN_MEMORY = 16;

/** The cases of a collection as they are on disk now. */
export function openDesk(path: string, environment: Environment, effects: Effects) {
  const shared = groundOf(path, environment, effects);
  let cases: readonly DeskCase[] = [];
  let groundSerial = 0;
  let whole = new Map<DeskCase, LoadedCase>();
  let groups: Groups | null = null;
  const strips = latest<ReturnType<typeof analyseStrip>>(STRIPS_IN_MEMORY);
  const analyse: typeof analyseStrip = (leads, beside) =>
    strips(digestOf(serialize([leads, beside])), () => analyseStrip(leads, beside));

  /** Takes up what changed of the ground; whether anything did. */
  function refreshGround(): boolean {
    if (!shared.refresh() && groundSerial > 0) return false;
    groundSerial++;
    groups = null;
    whole = new Map();
    const ground = shared.now();
    const before = new Map(cases.map((one) => [one.folder, one]));
    cases = (ground.ok ? ground.value.collection.folders : []).map((folder) => ({
      folder,
      name: basename(folder),
      serial: before.get(folder)?.serial ?? 0,
      read: null,
      known: before.get(folder)?.known ?? null,
    }));
    return true;
  }

  /** Reads a case where it is not as it was when it was read; whether it had to. */
  function refresh(one: DeskCase): boolean {
    if (one.read?.isUnchanged()) return false;
    if (!read(one)) return false;
    one.serial++;
    groups = null;
    return true;
  }

  /** Reads a case from its files; whether that could be tried. */
  function read(one: DeskCase): boolean {
    const ground = shared.now();
    if (!ground.ok) return false;
    const noted = noting(effects);
    const loaded = loadOne(one.folder, ground.value.collection, noted.effects, { analyse });
    one.read = {
      brief: loaded.ok ? briefOf(loaded.value, ground.value) : null,
      problems: loaded.ok ? [] : loaded.problems,
      isUnchanged: noted.isUnchanged,
      isSettled: loaded.ok,
    };
    one.known = one.read.brief ?? one.known;
    whole.delete(one);
    if (loaded.ok) keep(one, loaded.value);
    return true;
  }

  function keep(one: DeskCase, loaded: LoadedCase): void {
    whole.delete(one);
    whole.set(one, loaded);
    const [oldest] = whole.keys();
    if (whole.size > CASES_IN_MEMORY && oldest) whole.delete(oldest);
  }

  /** A case that has still to be read again is taken for what it was. */
  const briefs = () => cases.flatMap(({ read, known }) => (read ? read.brief : known) ?? []);

  return {
    refreshGround,
    refresh,
    ground: (): Outcome<Ground> => shared.now(),
    groundSerial: () => groundSerial,
    cases: () => cases,
    /** The case as it is now; null where it cannot be read. */
    whole: (one: DeskCase): LoadedCase | null => {
      refresh(one);
      if (one.read?.brief && !whole.has(one)) read(one);
      const loaded = whole.get(one) ?? null;
      if (loaded) keep(one, loaded);
      return loaded;
    },
    /** How much of each case's patient is told, among those that were read. */
    grouped: (name: string): Grouped | undefined => {
      const ground = shared.now();
      if (!ground.ok) return undefined;
      groups ??= decideGroups(
        briefs().map((brief) => ({ ...brief, name: brief.claims.name })),
        ground.value.collection.clinic['small groups']['at least'],
      );
      return groups.of.get(name);
    },
    /** Where a case tells in its author's words what its group withholds. */
    overtold: (name: string): readonly Problem[] =>
      groups?.undecided.find((one) => one.name === name)?.problems ?? [],
    /** Cases that claim the same number or address. */
    clashes: (): readonly Problem[] => {
      const ground = shared.now();
      if (!ground.ok) return [];
      return collisions(briefs().map(({ claims }) => claims)).map(({ problem }) => problem);
    },
  };
}

function briefOf(one: LoadedCase, { collection: { clinic, content } }: Ground): Brief {
  const { facts, standing } = one;
  const claims = claimsOf(one);
  const { learner } = content.languages.get(clinic.languages[0] as string) as Language;
  const cleared = claims.isPublished ? clearCase(one, learner) : null;
  return {
    patient: facts.identity.patientName,
    goesHome: goesHome(facts),
    claims,
    traits: traitsOf(facts, clinic.region ?? null),
    cleared: cleared?.ok ?? null,
    telling: cleared?.ok ? cleared.value.telling : null,
    publishes: {
      teaching: claims.isPublished && facts.consent.teaching.allows,
      record: claims.isPublished && facts.consent.record.allows,
    },
    state: stateOf(standing.sheet),
    surgery: facts.surgery,
    warnings: facts.warnings,
  };
}

export type Desk = ReturnType<typeof openDesk>;
