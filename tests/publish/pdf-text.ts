import { execFileSync } from 'node:child_process';

const read = (program: string, ...args: string[]) =>
  execFileSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 27 });

/** The words of a PDF in the order in which they were printed. */
export const pdfText = (file: string): string => read('pdftotext', '-raw', file, '-');

/** Everything a PDF says beside its pages: information dictionary, XMP, and every string of its objects. */
export const pdfHidden = (file: string): string =>
  [
    read('pdfinfo', file),
    read('pdfinfo', '-meta', file),
    read('qpdf', '--json=2', '--json-stream-data=none', file),
  ].join('\n');

/** The words of a page: what stands between its tags, drawings left out. */
export function pageText(html: string): string {
  return html
    .replace(/<(head|svg|style)\b[\s\S]*?<\/\1>/g, ' ')
    .replace(/<\/?(strong|em|code|a)\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#(\d+);/g, (_, code) => String.fromCodePoint(Number(code)))
    .replace(/&quot;/g, '"')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ');
}
