/** Half a window ahead, a figure is brought to life before a reader who scrolls can see that it was not. */
const AHEAD = '50% 0px';

/**
 * Calls back once, when an element is about to come into view: what nobody looks at yet costs the reader's device
 * nothing. On paper figures stay as they are printed, so a print need not wait for any.
 */
export function whenNear(element: Element, then: () => void): void {
  const watcher = new IntersectionObserver(
    (seen) => {
      if (!seen.some(({ isIntersecting }) => isIntersecting)) return;
      watcher.disconnect();
      then();
    },
    { rootMargin: AHEAD },
  );
  watcher.observe(element);
}
