import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { FILES } from './site/site.js';
import type { Known } from './steps/survey.js';

/** A page, photo or question that was public before this build and is no more. */
export interface GonePage {
  /** Path under `public/`; of a question, with its place on the page. */
  readonly page: string;
  /** In a few words. */
  readonly why: string;
}

/** Pages and photos of a public tree, as paths in it, and the questions that its list of questions leads to. */
export function publicPages(folder: string): string[] {
  if (!existsSync(folder)) return [];
  const pages = readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.(html|jpg)$/.test(entry.name))
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
  return [...pages, ...(pages.includes(FILES.questions) ? questionsOf(folder) : [])];
}

const questionsOf = (folder: string): string[] =>
  [
    ...readFileSync(join(folder, FILES.questions), 'utf8').matchAll(
      /href="([\w-]+\/teaching\.html#[^"]+)"/g,
    ),
  ].map(([, question]) => question as string);

/** What a build takes out of public, with the withdrawal that took it out where there is one. */
export function goneFrom(
  before: readonly string[],
  after: readonly string[],
  cases: readonly Pick<Known, 'address' | 'consent'>[],
): GonePage[] {
  const still = new Set(after);
  const byAddress = new Map(cases.map((one) => [one.address, one.consent] as const));
  // A question goes with its page, and is named where the page stays.
  const isTold = (page: string) => !page.includes('#') || still.has(page.split('#')[0] as string);
  return before
    .filter((page) => !still.has(page) && isTold(page))
    .map((page) => ({ page, why: withdrawalOf(page, byAddress) ?? 'no longer made' }));
}

function withdrawalOf(
  page: string,
  cases: ReadonlyMap<string | null, Known['consent']>,
): string | null {
  const [address = '', name = ''] = page.split('/');
  const consent = cases.get(address);
  if (!consent) return null;
  const kind = kindsOf(name).find((one) => consent[one].withdrawn !== null);
  return kind ? `consent to it was withdrawn on ${consent[kind].withdrawn}` : null;
}

/** The consents that a page, photo or question needs. */
function kindsOf(name: string): readonly (keyof Known['consent'])[] {
  if (name.endsWith('.jpg')) return ['teaching', 'photos'];
  if (name.includes('#')) return ['teaching', 'questions'];
  return name.startsWith('record') ? ['record'] : ['teaching'];
}
