import { element } from './element.js';

/** A page that came in, and what reads it as it was. */
interface Sheet {
  readonly frame: HTMLIFrameElement;
  readonly token: string;
}

/**
 * Shows a document in a frame. A new state of it is laid out behind the old one and takes its place when it is ready, at
 * the place to which its reader had scrolled, so that nothing blinks.
 * @param moved is told the path of the page when its reader follows a link to another
 */
export function sheets(moved: (path: string) => void) {
  const place = element('main', { class: 'sheets' });
  let shown: Sheet | null = null;
  let coming: Sheet | null = null;

  function show(path: string, token: string): void {
    if ((coming ?? shown)?.token === token) return;
    coming?.frame.remove();
    const frame = element('iframe', { title: 'The document', src: path });
    const next = { frame, token };
    coming = next;
    place.append(frame);
    whenLaidOut(
      frame,
      () => coming === next,
      () => {
        const before = shown?.frame.contentWindow;
        if (before && samePage(before, frame))
          frame.contentWindow?.scrollTo(before.scrollX, before.scrollY);
        shown?.frame.remove();
        frame.classList.add('shown');
        shown = next;
        coming = null;
        frame.addEventListener('load', () => follow(frame));
        follow(frame);
      },
    );
  }

  /** A link within the document stays in the frame; one to elsewhere opens a window of its own. */
  function follow(frame: HTMLIFrameElement): void {
    const { document: inner, location: at } = frame.contentWindow ?? {};
    if (!inner || !at?.href.startsWith(location.origin)) return;
    inner.addEventListener('click', (event) => {
      const link = (event.target as Element | null)?.closest?.('a[href]');
      if (!link) return;
      const { origin, href, protocol } = new URL((link as HTMLAnchorElement).href, at.href);
      if (origin === location.origin || !protocol.startsWith('http')) return;
      event.preventDefault();
      window.open(href, '_blank', 'noopener');
    });
    moved(at.pathname);
  }

  return {
    place,
    show,
    /** Whether there is a page to look at. */
    isEmpty: () => shown === null,
    /** The next page to be shown is another one. */
    forget: (token: string) => {
      if (shown) shown = { ...shown, token };
    },
  };
}

const samePage = (before: Window, { contentWindow }: HTMLIFrameElement): boolean => {
  try {
    return before.location.pathname === contentWindow?.location.pathname;
  } catch {
    return false;
  }
};

/** Calls back when a page is there with its style, before its pictures are. */
function whenLaidOut(frame: HTMLIFrameElement, isWanted: () => boolean, then: () => void): void {
  const look = (): void => {
    if (!isWanted()) return;
    const inner = frame.contentDocument;
    // The frame begins with an empty page of its own.
    const isHere = inner !== null && inner.URL !== 'about:blank' && inner.readyState !== 'loading';
    const links = isHere
      ? [...inner.querySelectorAll<HTMLLinkElement>('link[rel=stylesheet]')]
      : [];
    // What is no page, such as a PDF, cannot be looked into.
    if ((isHere && links.every(({ sheet }) => sheet !== null)) || inner === null) then();
    else setTimeout(look, 4);
  };
  look();
}
