// CSS pixels of hand and finger: not clinical numbers.

/** What a hand does on the paper. Places in CSS pixels of the paper. */
export interface Gestures {
  readonly drag: (right: number, down: number) => void;
  /** @param by factor of the size, around a place */
  readonly pinch: (by: number, x: number, y: number) => void;
  /** Pressed and let go in one place. */
  readonly tap: (x: number) => void;
  /** A mouse passes over. */
  readonly hover: (x: number) => void;
}

/** A hand that moves less has tapped. */
const STILL = 5;
/** Pixels of a line, where a wheel counts lines. */
const LINE = 16;

/** Heeds mouse, pen, fingers and wheel on a surface. A wheel that turns up and down is left to the page, unless it sizes. */
export function heedGestures(surface: HTMLElement, gestures: Gestures): void {
  const down = new Map<number, { x: number; y: number }>();
  let travelled = 0;
  const place = (event: MouseEvent) => {
    const { left, top } = surface.getBoundingClientRect();
    return { x: event.clientX - left, y: event.clientY - top };
  };
  surface.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    surface.setPointerCapture(event.pointerId);
    if (down.size === 0) travelled = 0;
    down.set(event.pointerId, place(event));
  });
  surface.addEventListener('pointermove', (event) => {
    const now = place(event);
    const last = down.get(event.pointerId);
    if (!last) {
      if (event.pointerType === 'mouse') gestures.hover(now.x);
      return;
    }
    const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
    const [right, below] = [now.x - last.x, now.y - last.y];
    const wasStill = travelled < STILL;
    travelled += Math.hypot(right, below);
    if (wasStill && travelled < STILL && !other) return;
    down.set(event.pointerId, now);
    if (other) {
      const apart = (one: { x: number; y: number }) => Math.hypot(one.x - other.x, one.y - other.y);
      if (apart(last) > 1) {
        gestures.pinch(apart(now) / apart(last), (now.x + other.x) / 2, (now.y + other.y) / 2);
      }
      gestures.drag(right / 2, below / 2);
    } else gestures.drag(right, below);
  });
  const lift = (event: PointerEvent) => {
    const was = down.delete(event.pointerId);
    if (was && event.type === 'pointerup' && travelled < STILL && down.size === 0) {
      gestures.tap(place(event).x);
    }
  };
  surface.addEventListener('pointerup', lift);
  surface.addEventListener('pointercancel', lift);
  surface.addEventListener(
    'wheel',
    (event) => {
      const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? LINE : 1;
      const { x, y } = place(event);
      if (event.ctrlKey) {
        event.preventDefault();
        gestures.pinch(Math.exp((-event.deltaY * unit) / 240), x, y);
        return;
      }
      const across = event.shiftKey && event.deltaX === 0 ? event.deltaY : event.deltaX;
      if (Math.abs(across) < Math.abs(event.deltaY) && !event.shiftKey) return;
      if (across === 0) return;
      event.preventDefault();
      gestures.drag(-across * unit, 0);
    },
    { passive: false },
  );
}

/** Heeds a thing that is dragged along a surface; gives where the hand is, in CSS pixels of the surface. */
export function heedDrag(
  thing: HTMLElement,
  surface: HTMLElement,
  drag: (x: number) => void,
): void {
  const go = (event: PointerEvent) => drag(event.clientX - surface.getBoundingClientRect().left);
  thing.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    thing.setPointerCapture(event.pointerId);
    if (thing === surface) go(event);
  });
  thing.addEventListener('pointermove', (event) => {
    event.stopPropagation();
    if (thing.hasPointerCapture(event.pointerId)) go(event);
  });
}
