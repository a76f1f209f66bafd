const known = new Map<string, string>();

/** `#ff8000` as the operands of a colour operator, shares of red, green and blue: `1 0.502 0`. The few inks are kept. */
export function colourOperands(colour: string): string {
  const before = known.get(colour);
  if (before !== undefined) return before;
  if (!/^#[\da-f]{6}$/i.test(colour)) throw new Error(`${colour} is no colour of six digits`);
  const operands = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((share) => Math.round(share * 1000) / 1000)
    .join(' ');
  known.set(colour, operands);
  return operands;
}
