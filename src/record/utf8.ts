import { bad, good, type Outcome } from './problem.js';

/** UTF-8 to text; bytes that are not UTF-8 are a problem at the first of them, never replaced. */
export function utf8Text(bytes: Uint8Array, file: string): Outcome<string> {
  try {
    return good(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    const [before = ''] = new TextDecoder('utf-8').decode(bytes).split('\ufffd', 1);
    const lines = before.split('\n');
    return bad({
      kind: 'text in another encoding',
      file,
      line: lines.length,
      column: (lines.at(-1)?.length ?? 0) + 1,
      found: 'bytes that are not UTF-8',
      expected: 'text in UTF-8',
      mend: 'Save the file again with the encoding UTF-8.',
    });
  }
}
