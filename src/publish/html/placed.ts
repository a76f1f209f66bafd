import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { PrintedDocument } from '../print-case.js';
import { pageView } from './page-view.js';

/** Writes a document's PDF and pictures into its tree, and gives what its page needs. */
export function placed(document: PrintedDocument, folder: string) {
  const { view, files } = pageView(document);
  for (const { path, bytes } of [
    ...files,
    { path: `${document.address}.pdf`, bytes: document.pdf },
  ]) {
    const target = join(folder, path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, bytes);
  }
  return { ...view, labels: document.labels };
}
