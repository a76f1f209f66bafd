import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { house } from '../house.js';
import { webFaces } from './web-faces.js';

export interface Shared {
  /** How a face that comes late is treated: see `webFaces`. */
  readonly display: 'optional' | 'swap';
  /** Paths under `templates/`, in the order in which they count. */
  readonly styles: readonly string[];
  /** Names of bundles. */
  readonly scripts: readonly string[];
}

/** Writes what all pages of a tree share: one style with its faces, and scripts. */
export function writeAssets({ display, styles, scripts }: Shared, folder: string): void {
  const assets = join(folder, 'assets');
  mkdirSync(assets, { recursive: true });
  const faces = webFaces(display);
  writeFileSync(
    join(assets, 'style.css'),
    [
      ...faces.map(({ rule }) => rule),
      ...styles.map((style) => readFileSync(join(house.templates, style), 'utf8')),
    ].join(''),
  );
  for (const { name, source } of faces) cpSync(source, join(assets, name));
  for (const script of scripts) {
    cpSync(join(house.live, `${script}.js`), join(assets, `${script}.js`));
  }
}
