import type { ListState, PageState, PreviewState, ToldProblem } from '../live/preview/contract.js';
import { stillToCome } from '../publish/still-to-come.js';
import type { Problem, Warning } from '../record/problem.js';
import { PROBLEM_NUMBERS } from '../record/problem-kind.js';
import type { Desk, DeskCase } from './desk.js';
import { type OpenedCases, readingOn } from './opened.js';

/** What took its time and was found of a case afterwards. */
export interface Afterwards {
  /** The state of the case that it was found of. */
  readonly of: string;
  readonly warnings: readonly Warning[];
  readonly unprintable: readonly Problem[];
}

/** What the pages of a preview are told. */
interface Telling {
  /** Path of the collection. */
  readonly path: string;
  readonly desk: Desk;
  readonly cases: OpenedCases;
  readonly afterwards: ReadonlyMap<DeskCase, Afterwards>;
  readonly told: (problem: Problem | Warning) => ToldProblem;
  /** The day, `YYYY-MM-DD`, in a time zone. */
  readonly today: (timeZone: string) => string;
}

/** A problem as pages show it. @param frameOf the line of a file that it speaks of, with a rule below what is meant */
export const tellingWith =
  (frameOf: (problem: Problem) => readonly string[]) =>
  (problem: Problem | Warning): ToldProblem => {
    const { kind, file, line, column, byte, field, found, expected, mend } = problem;
    const at = line === undefined ? '' : `:${line}${column === undefined ? '' : `:${column}`}`;
    return {
      number: PROBLEM_NUMBERS[kind],
      place: byte === undefined ? `${file}${at}` : `${file} at byte ${byte}`,
      field: field ?? null,
      frame: frameOf(problem),
      found,
      expected,
      mend,
      accepted: 'accepted' in problem ? problem.accepted : null,
    };
  };

/** Links to the pages of a case. */
export function pagesOf({ name, known }: DeskCase) {
  if (!known) return [];
  const { claims, goesHome, publishes } = known;
  return [
    ...(goesHome ? [{ href: `private/${name}/discharge.html`, label: 'Owner’s sheet' }] : []),
    ...(publishes.teaching
      ? [{ href: `public/${claims.address}/teaching.html`, label: 'Teaching page' }]
      : []),
    ...(publishes.record
      ? [{ href: `public/${claims.address}/record.html`, label: 'Anonymized record' }]
      : []),
  ].map(({ href, label }) => ({
    href: href.split('/').map(encodeURIComponent).join('/'),
    label,
  }));
}

/** How the list of cases, or a page of one, stands now. */
export function statesOf({ path: collection, desk, cases, afterwards, told, today }: Telling) {
  /** What a case is asked about now: no build tells a surgery that is still to come, as it would not be the same on another day. */
  function openWarnings({ read }: DeskCase): Warning[] {
    const ground = desk.ground();
    if (!read?.brief || !ground.ok) return [];
    const { brief } = read;
    const day = today(ground.value.collection.clinic['time zone']);
    return [
      ...brief.warnings,
      ...stillToCome([{ facts: brief, places: brief.claims.places }], day),
    ].filter(({ accepted }) => accepted === null);
  }

  function listState(): ListState {
    const ground = desk.ground();
    return {
      of: 'list',
      clinic: ground.ok ? ground.value.collection.clinic.name : collection,
      problems: (ground.ok ? desk.clashes() : ground.problems).map(told),
      reading: readingOn(desk),
      cases: desk.cases().map((one) => {
        const { brief = null, problems = [] } = one.read ?? {};
        const after = afterwards.get(one);
        return {
          name: one.name,
          patient: brief?.patient ?? null,
          state: brief?.state ?? '',
          problems: problems.length + (after?.unprintable.length ?? 0),
          warnings: openWarnings(one).length,
          pages: pagesOf(one),
          kept: keptBack(one),
        };
      }),
    };
  }

  /** Why no page of a case would be public, in a few words for the list. */
  function keptBack({ name, read }: DeskCase): string[] {
    const ground = desk.ground();
    if (!read?.brief || !ground.ok) return [];
    const { cleared } = read.brief;
    if (cleared === null) return ['not to be published'];
    return [
      ...(ground.value.hash.ok ? [] : ['no key']),
      ...(cleared ? [] : ['passages to decide on']),
      ...(cleared && readingOn(desk) === null && (desk.grouped(name)?.told ?? null) === null
        ? ['group too small']
        : []),
    ];
  }

  /** Null where it cannot be told yet. */
  async function pageState(path: string): Promise<PageState | null> {
    const nothing = {
      of: 'page' as const,
      title: path,
      pages: [],
      token: null,
      problems: [],
      warnings: [],
      kept: [],
      undecided: [],
    };
    const ground = desk.ground();
    if (!ground.ok) return { ...nothing, problems: ground.problems.map(told) };
    const one = await cases.caseAt(path);
    if (!one) return nothing;
    const now = await cases.open(one);
    if (one.read?.isSettled === false) return null;
    const pages = pagesOf(one).map((page) => ({
      ...page,
      current: decodeURIComponent(page.href) === path,
    }));
    const named = { ...nothing, title: one.name, pages };
    if (!('files' in now)) return { ...named, problems: now.map(told) };
    const later = afterwards.get(one);
    const fits = later?.of === cases.stateKey(one) ? later : null;
    const isPublic = path.startsWith('public/');
    return {
      ...named,
      title: `${one.read?.brief?.patient ?? one.name}, ${one.name}`,
      // The owner's sheet is the same under every veil.
      token: isPublic ? now.key : cases.stateKey(one),
      problems: [
        ...desk.clashes().filter(({ file }) => file === one.read?.brief?.claims.file),
        ...(fits?.unprintable ?? []),
      ].map(told),
      warnings: [
        ...openWarnings(one),
        ...(fits?.warnings ?? []).filter(({ accepted }) => accepted === null),
      ].map(told),
      kept: isPublic ? now.veil.kept : [],
      undecided: isPublic ? now.veil.undecided.map(told) : [],
    };
  }

  /** @param path of a page, null for the list; gives null where it cannot be told yet */
  return async (path: string | null): Promise<PreviewState | null> =>
    path === null ? listState() : pageState(path);
}
