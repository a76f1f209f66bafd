/** Where the reader looks: one moment, shared by the figures of a page. */
export interface Moment {
  /** Index of the strip and s after its first sample; null where the moment lies on no strip. */
  readonly onStrip: { readonly strip: number; readonly second: number } | null;
  /** Minutes of anesthesia; null where the record does not tell when the strip began. */
  readonly minute: number | null;
}

export interface Cursor {
  /** The moment pointed at; null before anything was. */
  readonly moment: Moment | null;
  /** @param by who moves it, so that a figure can leave its own moves alone */
  readonly move: (moment: Moment, by: object) => void;
  readonly follow: (heed: (moment: Moment, by: object) => void) => void;
}

export function cursor(): Cursor {
  const followers: ((moment: Moment, by: object) => void)[] = [];
  let moment: Moment | null = null;
  return {
    get moment() {
      return moment;
    },
    move: (to, by) => {
      moment = to;
      for (const heed of followers) heed(to, by);
    },
    follow: (heed) => {
      followers.push(heed);
      // A figure that comes to life late takes up the moment that the others are at, once it is whole.
      const now = moment;
      if (now !== null) queueMicrotask(() => heed(now, followers));
    },
  };
}
