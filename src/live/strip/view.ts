// Millimetres of ECG paper: 10 mm for 1 mV, common practice. The other numbers are choices of this program: not clinical numbers.

/** mm per mV. */
const GAIN = 10;
/** mm/s. */
export const SPEEDS = [25, 50] as const;
export type Speed = (typeof SPEEDS)[number];

/** How many times its true size paper may be shown. */
export const ZOOMS = [0.25, 0.35, 0.5, 0.7, 1, 1.4, 2, 2.8, 4, 5.6, 8] as const;

/** A millimetre of paper at true size, in CSS pixels. */
const PIXELS = 96 / 25.4;

/** What never changes while a reader moves about: the strip in s, and its paper in mV. */
export interface Sheet {
  readonly duration: number;
  readonly low: number;
  readonly high: number;
}

/** The part of a sheet that a window of `width` by `height` CSS pixels shows. */
export interface View {
  readonly sheet: Sheet;
  readonly width: number;
  readonly height: number;
  readonly speed: Speed;
  readonly zoom: number;
  /** s at the left edge. */
  readonly from: number;
  /** mV at the upper edge. */
  readonly top: number;
}

export const pixelsPerMillimetre = ({ zoom }: View): number => PIXELS * zoom;
export const pixelsPerSecond = (view: View): number => pixelsPerMillimetre(view) * view.speed;
export const pixelsPerMillivolt = (view: View): number => pixelsPerMillimetre(view) * GAIN;

export const xOf = (view: View, second: number): number =>
  (second - view.from) * pixelsPerSecond(view);
export const yOf = (view: View, millivolt: number): number =>
  (view.top - millivolt) * pixelsPerMillivolt(view);
export const secondAt = (view: View, x: number): number => view.from + x / pixelsPerSecond(view);

/** s that the window shows. */
export const shown = (view: View): number => view.width / pixelsPerSecond(view);
export const endOf = (view: View): number => view.from + shown(view);

/** Whether paper reaches beyond the upper or lower edge. */
export const isTall = (view: View): boolean =>
  (view.sheet.high - view.sheet.low) * pixelsPerMillivolt(view) > view.height + 1e-6;

/** The same view within the sheet: no further than its ends; paper that fits stands in the middle. */
export function within(view: View): View {
  const { sheet } = view;
  const from = Math.max(0, Math.min(view.from, sheet.duration - shown(view)));
  const tall = view.height / pixelsPerMillivolt(view);
  const top = isTall(view)
    ? Math.min(sheet.high, Math.max(view.top, sheet.low + tall))
    : (sheet.high + sheet.low + tall) / 2;
  return { ...view, from, top };
}

/** Paper moved under the window by CSS pixels, to the right and down where positive. */
export const moved = (view: View, right: number, down: number): View =>
  within({
    ...view,
    from: view.from - right / pixelsPerSecond(view),
    top: view.top + down / pixelsPerMillivolt(view),
  });

/** Another scale, around a point of the window that stays where it is. */
export function scaled(
  view: View,
  to: Partial<Pick<View, 'zoom' | 'speed'>>,
  x = view.width / 2,
  y = view.height / 2,
): View {
  const least = ZOOMS[0];
  const most = ZOOMS[ZOOMS.length - 1] as number;
  const zoom = Math.min(most, Math.max(least, to.zoom ?? view.zoom));
  const next = { ...view, ...to, zoom };
  return within({
    ...next,
    from: secondAt(view, x) - x / pixelsPerSecond(next),
    top: view.top - y / pixelsPerMillivolt(view) + y / pixelsPerMillivolt(next),
  });
}

/** Seconds that a strip shows when it is first seen, at least, unless that makes it smaller than true size. */
const FIRST_SECONDS = 4;

/** The view that a reader sees first: as large as all its paper and some seconds fit the window, true size at least. */
export function firstView(view: View): View {
  const zoom = ZOOMS.findLast((one) => {
    const there = { ...view, zoom: one };
    return one > 1 && !isTall(there) && shown(there) >= FIRST_SECONDS;
  });
  return within({ ...view, zoom: zoom ?? 1 });
}

/** The next size up or down; the same where there is none. */
export function nextZoom(zoom: number, step: 1 | -1): number {
  const next =
    step > 0 ? ZOOMS.find((one) => one > zoom * 1.01) : ZOOMS.findLast((one) => one < zoom / 1.01);
  return next ?? zoom;
}

/** The view where a moment is in sight with some paper around it; the same view where it is already. */
export function showing(view: View, second: number): View {
  const edge = shown(view) / 8;
  const isSeen = second >= view.from + edge && second <= endOf(view) - edge;
  return isSeen ? view : within({ ...view, from: second - shown(view) / 2 });
}

/** The view in which a moment that runs on has come to the right edge: paper is turned like a page. */
export function following(view: View, second: number): View {
  const isSeen = second >= view.from && second <= endOf(view);
  return isSeen ? view : within({ ...view, from: second - shown(view) / 10 });
}

/** Paper for a trace: whole half millivolts around its extremes, 2 mV at least. */
export function paperFor(extremes: readonly [low: number, high: number] | null): {
  readonly low: number;
  readonly high: number;
} {
  let low = Math.floor(((extremes?.[0] ?? 0) - 0.1) * 2) / 2;
  let high = Math.ceil(((extremes?.[1] ?? 0) + 0.1) * 2) / 2;
  while (high - low < 2) {
    if (high <= -low) high += 0.5;
    else low -= 0.5;
  }
  return { low, high };
}
