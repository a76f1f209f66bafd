/**
 * Width of a text in the units of its size, guessed from four classes of letters of Atkinson Hyperlegible Next,
 * on the wide side. Good enough to keep labels apart; a page of text is measured from the face itself.
 */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const letter of text) ems += advance(letter);
  return ems * size;
}

function advance(letter: string): number {
  if (/[ijlI.,:;'|!()]/.test(letter)) return 0.33;
  if (/[mwMW%@]/.test(letter)) return 0.9;
  if (letter === ' ') return 0.27;
  return /[A-Z]/.test(letter) ? 0.69 : 0.6;
}

/** The text in lines of at most `width`, or null when a word alone is wider. */
export function wrapped(text: string, size: number, width: number): readonly string[] | null {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    if (textWidth(word, size) > width) return null;
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size) <= width) {
      line = longer;
    } else {
      lines.push(line);
      line = word;
    }
  }
  return line === '' ? lines : [...lines, line];
}
