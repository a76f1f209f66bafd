/** A view glides to its place in this time, ms. Not a clinical number. */
const LASTS = 180;

/** Moves from one second of the strip to another, fast at first. -> stops it where it is */
export function glide(from: number, to: number, moveTo: (second: number) => void): () => void {
  const begun = performance.now();
  let asked = requestAnimationFrame(step);

  function step(now: number): void {
    const share = Math.min(1, Math.max(0, (now - begun) / LASTS));
    const eased = share * (2 - share);
    moveTo(from + eased * (to - from));
    if (share < 1) asked = requestAnimationFrame(step);
  }

  return () => cancelAnimationFrame(asked);
}
