import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { house } from '../house.js';
import type { TreeFile } from './tree-file.js';
import { webFaces } from './web-faces.js';

export interface Shared {
  /** How a face that comes late is treated: see `webFaces`. */
  readonly display: 'optional' | 'swap';
  /** Paths under `templates/`, in the order in which they count. */
  readonly styles: readonly string[];
  /** Names of bundles. */
  readonly scripts: readonly string[];
}

/** Of the clinic's own pages. */
export const PRIVATE_ASSETS: Shared = {
  display: 'swap',
  styles: ['shared/style.css', 'clinic/list.css'],
  scripts: [],
};

export const PUBLIC_ASSETS: Shared = {
  display: 'optional',
  styles: [
    'shared/style.css',
    'shared/strip.css',
    'shared/heart.css',
    'shared/vitals.css',
    'shared/exercises.css',
    'site/site.css',
  ],
  scripts: ['case', 'site', 'search'],
};

/** What all pages of a tree share: one style with its faces, and scripts. */
export function assetFiles({ display, styles, scripts }: Shared): TreeFile[] {
  const faces = webFaces(display);
  const template = (style: string) => readFileSync(join(house.templates, style), 'utf8');
  return [
    {
      path: 'assets/style.css',
      bytes: () =>
        Buffer.from([...faces.map(({ rule }) => rule), ...styles.map(template)].join('')),
    },
    ...faces.map(({ name, source }) => ({
      path: `assets/${name}`,
      bytes: () => readFileSync(source),
    })),
    ...scripts.map((script) => ({
      path: `assets/${script}.js`,
      bytes: () => readFileSync(join(house.live, `${script}.js`)),
    })),
  ];
}
