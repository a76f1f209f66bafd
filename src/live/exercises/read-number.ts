/** A number as a reader writes it: with a point or with a comma, spaces around it. Null for everything else. */
export function readNumber(written: string): number | null {
  const text = written.trim().replace(',', '.');
  return /^\d+(\.\d+)?$/.test(text) ? Number(text) : null;
}
