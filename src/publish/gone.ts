import { existsSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Known } from './steps/survey.js';

/** A page or photo that was public before this build and is no more. */
export interface GonePage {
  /** Path under `public/`. */
  readonly page: string;
  /** In a few words. */
  readonly why: string;
}

/** Pages and photos of a public tree, as paths in it. */
export function publicPages(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.(html|jpg)$/.test(entry.name))
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

/** What a build takes out of public, with the withdrawal that took it out where there is one. */
export function goneFrom(
  before: readonly string[],
  after: readonly string[],
  cases: readonly Pick<Known, 'address' | 'consent'>[],
): GonePage[] {
  const still = new Set(after);
  const byAddress = new Map(cases.map((one) => [one.address, one.consent] as const));
  return before
    .filter((page) => !still.has(page))
    .map((page) => ({ page, why: withdrawalOf(page, byAddress) ?? 'no longer made' }));
}

function withdrawalOf(
  page: string,
  cases: ReadonlyMap<string | null, Known['consent']>,
): string | null {
  const [address = '', name = ''] = page.split('/');
  const consent = cases.get(address);
  if (!consent) return null;
  const kinds = name.endsWith('.jpg')
    ? (['teaching', 'photos'] as const)
    : name.startsWith('record')
      ? (['record'] as const)
      : (['teaching'] as const);
  const kind = kinds.find((one) => consent[one].withdrawn !== null);
  return kind ? `consent to it was withdrawn on ${consent[kind].withdrawn}` : null;
}
