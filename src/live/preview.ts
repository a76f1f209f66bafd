/** What runs in the preview that `thrice watch` serves: shows the state that the server tells, and asks for pages that changed. */
import { type PreviewState, SHOWN_AT, STATE_AT } from './preview/contract.js';
import { showList } from './preview/list.js';
import { pageView } from './preview/page.js';

const shownPath = (): string | null =>
  location.pathname.startsWith(SHOWN_AT)
    ? decodeURIComponent(location.pathname.slice(SHOWN_AT.length))
    : null;

let path = shownPath();
let source: EventSource | null = null;
const view =
  path === null
    ? null
    : pageView(path, (now) => {
        path = now;
        listen();
      });

function listen(): void {
  source?.close();
  source = new EventSource(path === null ? STATE_AT : `${STATE_AT}?of=${encodeURIComponent(path)}`);
  source.addEventListener('message', ({ data }) => {
    const state = JSON.parse(data as string) as PreviewState;
    if (state.of === 'list') showList(state);
    else view?.(state);
  });
  source.addEventListener('error', () => document.body.classList.add('stale'));
}

// A browser keeps few connections to one server: windows that nobody sees let go of theirs.
document.addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'visible') listen();
  else source?.close();
});
window.addEventListener('popstate', () => location.reload());
listen();
