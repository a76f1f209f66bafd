import { setTimeout as after, setImmediate as soon } from 'node:timers/promises';
import type { PreviewState, ToldProblem } from '../live/preview/contract.js';
import type { Effects } from '../publish/effects.js';
import { assetFiles, PRIVATE_ASSETS, PUBLIC_ASSETS } from '../publish/html/assets.js';
import { inPrintedLetters } from '../publish/printed-letters.js';
import { readingOf } from '../publish/reading.js';
import { ICON, RECORD_SCHEMA } from '../publish/site/public-tree.js';
import type { Problem } from '../record/problem.js';
import { type DeskCase, openDesk } from './desk.js';
import type { Environment } from './ground.js';
import { openedCases } from './opened.js';
import { type Afterwards, pagesOf, statesOf, tellingWith } from './states.js';

export interface PreviewOptions {
  /** A clinic's folder or one case folder. */
  readonly cases: string;
  readonly environment: Environment;
  /** The day, `YYYY-MM-DD`, in a time zone. */
  readonly today: (timeZone: string) => string;
  /** The line of a file that a problem speaks of, with a rule below what is meant. */
  readonly frameOf: (problem: Problem) => readonly string[];
}

/** A file as it is served. */
export type Served =
  | { readonly kind: 'file'; readonly bytes: Uint8Array }
  | { readonly kind: 'not here' }
  | { readonly kind: 'problems'; readonly problems: readonly ToldProblem[] };

/** Who is told whenever something changes. */
export interface Listener {
  /** Path of the page that it looks at, null for the list. */
  readonly path: string | null;
  readonly tell: (state: PreviewState) => void;
}

/** How often files on screen are looked at, ms: with the time to make a page it stays far below 300. Not a clinical number. */
const LOOK_EVERY = 40;
/** Looks from one at what all cases share to the next. Not a clinical number. */
const GROUND_EVERY = 5;
/** Cases off screen that are looked at in one go. Not a clinical number. */
const IN_PASSING = 20;
/** Quiet after a change before what can wait is done: reading levels, and whether all PDFs can be printed, ms. Not a clinical number. */
const QUIET = 600;

/** A preview of a collection: its files, made from what is on disk now, and what stands in their way. Writes nothing. */
export function openPreview(
  { cases: path, environment, today, frameOf }: PreviewOptions,
  effects: Effects,
) {
  const desk = openDesk(path, environment, effects);
  const listeners = new Map<Listener, string>();
  const { caseAt, stateKey, open } = openedCases(desk);
  const afterwards = new Map<DeskCase, Afterwards>();
  const told = tellingWith(frameOf);
  const stateFor = statesOf({
    path,
    desk,
    cases: { caseAt, stateKey, open },
    afterwards,
    told,
    today,
  });
  const closing = new AbortController();
  const assets = new Map(
    [
      ...assetFiles(PRIVATE_ASSETS).map((file) => ['private', file] as const),
      ...[...assetFiles(PUBLIC_ASSETS), ICON, RECORD_SCHEMA].map(
        (file) => ['public', file] as const,
      ),
    ].map(([tree, file]) => [`${tree}/${file.path}`, file]),
  );
  /** The serials of cases and of the ground that listeners were told of. */
  const looked = new Map<DeskCase, number>();
  let lookedAtGround = 0;
  let changedAt = 0;
  let toldAt = 0;
  desk.refreshGround();

  async function serve(path: string): Promise<Served> {
    const asset = assets.get(path);
    if (asset) return { kind: 'file', bytes: asset.bytes() };
    desk.refreshGround();
    const ground = desk.ground();
    if (!ground.ok) return { kind: 'problems', problems: ground.problems.map(told) };
    const one = await caseAt(path);
    if (!one) return { kind: 'not here' };
    const now = await open(one);
    if (!('files' in now)) return { kind: 'problems', problems: now.map(told) };
    const bytes = await inPrintedLetters({ file: `${one.folder}/case.yaml`, rare: [] }, async () =>
      now.files.find(path)?.bytes(),
    );
    if (!bytes.ok) return { kind: 'problems', problems: bytes.problems.map(told) };
    return bytes.value ? { kind: 'file', bytes: bytes.value } : { kind: 'not here' };
  }

  /** Tells each listener its state where it is another than before. */
  async function tellAll(): Promise<void> {
    toldAt = performance.now();
    for (const listener of [...listeners.keys()]) {
      const state = await stateFor(listener.path);
      if (state === null) continue;
      const text = JSON.stringify(state);
      if (!listeners.has(listener) || listeners.get(listener) === text) continue;
      listeners.set(listener, text);
      listener.tell(state);
      // The page will be asked for in a moment. What is wrong with it is answered then.
      if (listener.path !== null) void serve(listener.path).catch(() => undefined);
    }
  }

  async function onScreen(): Promise<Set<DeskCase>> {
    const all = new Set<DeskCase>();
    for (const { path } of listeners.keys()) {
      const one = path === null ? undefined : await caseAt(path);
      if (one) all.add(one);
    }
    return all;
  }

  /** Reads what has changed, what is on screen first. A problem is told only if it is still there at the next look. */
  function look(cases: Iterable<DeskCase>): boolean {
    let isNews = false;
    for (const one of cases) {
      const isUnsettled = one.read?.isSettled === false && !desk.refresh(one);
      if (!isUnsettled) desk.refresh(one);
      else if (one.read) one.read.isSettled = true;
      // Somebody may have asked for the case before this look, so that it is read already.
      if (one.serial === looked.get(one) && !isUnsettled) continue;
      looked.set(one, one.serial);
      changedAt = performance.now();
      isNews ||= one.read?.isSettled ?? false;
    }
    return isNews;
  }

  function lookAtGround(): boolean {
    desk.refreshGround();
    if (lookedAtGround === desk.groundSerial()) return false;
    lookedAtGround = desk.groundSerial();
    looked.clear();
    afterwards.clear();
    return true;
  }

  async function watch(): Promise<void> {
    let passing = 0;
    let isWarm = false;
    for (let turn = 0; !closing.signal.aborted; turn++) {
      await after(LOOK_EVERY, undefined, { signal: closing.signal }).catch(() => undefined);
      if (listeners.size === 0 && isWarm) continue;
      let isNews = turn % GROUND_EVERY === 0 && lookAtGround();
      const seen = await onScreen();
      isNews = look(seen) || isNews;
      if (isNews) await tellAll();
      // One that was never read takes long, so it comes alone.
      const unread = desk.cases().find(({ read }) => read === null);
      const all = desk.cases();
      const some = unread ? [unread] : all.slice(passing, passing + IN_PASSING);
      passing = passing + IN_PASSING < all.length ? passing + IN_PASSING : 0;
      if (look(some)) {
        // While a large collection is read, nobody has to hear of each of its cases.
        const isLast = desk.cases().every(({ read }) => read !== null);
        if (isLast || performance.now() - toldAt > QUIET) await tellAll();
      } else if (!isWarm && !unread) {
        isWarm = true;
        await warmUp();
      } else if (performance.now() - changedAt > QUIET) await lookAfterwards(seen);
    }
  }

  /** Makes the pages of one case that nobody asked for, so that the first that somebody asks for do not wait for the libraries. */
  async function warmUp(): Promise<void> {
    const one = desk.cases().find(({ read }) => read?.brief);
    for (const { href } of one ? pagesOf(one) : []) {
      await serve(decodeURIComponent(href));
      await soon();
    }
  }

  /** What may take its time: how hard sheets are to read, and whether every document can be printed. */
  async function lookAfterwards(cases: Iterable<DeskCase>): Promise<void> {
    for (const one of cases) {
      const state = stateKey(one);
      if (afterwards.get(one)?.of === state) continue;
      const ground = desk.ground();
      const now = await open(one);
      const loaded = desk.whole(one);
      if (!('files' in now) || !loaded || !ground.ok) continue;
      const { warnings } = readingOf(loaded, ground.value.collection.content);
      const printed = await inPrintedLetters(loaded, () =>
        now.files.printAll(async () => {
          await soon();
          if (desk.refresh(one) || stateKey(one) !== state) throw new Changed();
        }),
      ).catch((error: unknown) => {
        if (error instanceof Changed) return null;
        throw error;
      });
      if (printed === null) continue;
      afterwards.set(one, {
        of: state,
        warnings,
        unprintable: printed.ok ? [] : printed.problems,
      });
      await tellAll();
    }
  }

  const watching = watch();
  return {
    serve,
    /** What stands in the way of the collection as a whole. */
    problems: (): readonly Problem[] => {
      const ground = desk.ground();
      return ground.ok ? [] : ground.problems;
    },
    /** Tells a listener how things stand, now and after each change; gives what ends that. */
    listen: (listener: Listener): (() => void) => {
      listeners.set(listener, '');
      void tellAll();
      return () => listeners.delete(listener);
    },
    close: async (): Promise<void> => {
      closing.abort();
      await watching;
    },
  };
}

/** A case changed while something was made of it that nobody waits for. */
class Changed extends Error {}

export type Preview = ReturnType<typeof openPreview>;
