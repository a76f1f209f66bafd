import { overFile } from '../../publish/programs.js';
import { PdfObjects } from './objects.js';

/** What poppler reads along the structure tree, pictures left out. */
export function alongTheTree(pdf: Uint8Array): string {
  const { text } = overFile(pdf, 'pdfinfo', '-struct-text', 'FILE');
  let skipFrom = Number.POSITIVE_INFINITY;
  const said: string[] = [];
  for (const line of text.split('\n')) {
    const depth = line.search(/\S/);
    if (depth <= skipFrom) skipFrom = Number.POSITIVE_INFINITY;
    if (depth < skipFrom && /^\s*Figure\b/.test(line)) skipFrom = depth;
    const [, words] = /^\s+"(.*)"$/.exec(line) ?? [];
    if (words !== undefined && depth < skipFrom) said.push(words);
  }
  return said.join(' ');
}

/** The file without its artifacts and pictures. */
export function textAlone(pdf: Uint8Array): Uint8Array {
  const objects = new PdfObjects(pdf);
  for (const { page } of objects.pages) {
    const content = objects.stream(page['/Contents'])?.toString('latin1') ?? '';
    const less = content.replace(/\/(?:Artifact|Figure) <<[\s\S]*?>> BDC\n[\s\S]*?\nEMC/g, '');
    objects.setStream(page['/Contents'], Buffer.from(less, 'latin1'));
  }
  return objects.save();
}
