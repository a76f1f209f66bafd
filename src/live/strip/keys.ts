/** What keys do on the paper. */
export interface KeyMoves {
  /** To the next beat or the one before. */
  readonly step: (by: 1 | -1) => void;
  readonly first: () => void;
  readonly last: () => void;
  /** On by what is in sight, or back. */
  readonly turn: (by: 1 | -1) => void;
  readonly resize: (by: 1 | -1) => void;
  readonly trueSize: () => void;
  /** Up or down; false where the paper fits, so that the page may scroll. */
  readonly climb: (by: 1 | -1) => boolean;
}

/** Heeds the keyboard on a surface that has the focus, and leaves every other key to the page. */
export function heedKeys(surface: HTMLElement, moves: KeyMoves): void {
  const does = new Map<string, () => unknown>([
    ['ArrowLeft', () => moves.step(-1)],
    ['ArrowRight', () => moves.step(1)],
    ['Home', moves.first],
    ['End', moves.last],
    ['PageUp', () => moves.turn(-1)],
    ['PageDown', () => moves.turn(1)],
    ['+', () => moves.resize(1)],
    ['=', () => moves.resize(1)],
    ['-', () => moves.resize(-1)],
    ['0', moves.trueSize],
    ['ArrowUp', () => moves.climb(1)],
    ['ArrowDown', () => moves.climb(-1)],
  ]);
  surface.addEventListener('keydown', (event) => {
    if (event.target !== surface || event.altKey || event.ctrlKey || event.metaKey) return;
    const own = does.get(event.key);
    if (own && own() !== false) event.preventDefault();
  });
}
