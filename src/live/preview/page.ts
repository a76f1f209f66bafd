import { type PageState, SHOWN_AT } from './contract.js';
import { element } from './element.js';
import { counted, problemsView, problemView } from './problems.js';
import { sheets } from './sheets.js';

/**
 * A document with its state above it.
 * @param moved is told the path of another page that its reader went to
 */
export function pageView(path: string, moved: (path: string) => void) {
  let here = path;
  const bar = element('nav', { class: 'bar', 'aria-label': 'Pages of this case' });
  const told = element('div', { class: 'told', role: 'status' });
  const frames = sheets((at) => {
    const now = decodeURIComponent(at.slice(1));
    if (now === here) return;
    here = now;
    isMoved = true;
    history.pushState(null, '', SHOWN_AT + at.slice(1));
    moved(now);
  });
  document.body.className = 'page';
  // For those who hear the page: on screen the bar says it.
  const head = element('h1', { class: 'unseen' });
  document.body.replaceChildren(bar, told, frames.place);
  let isMoved = false;

  return (state: PageState): void => {
    const { title, pages, token, problems, warnings, kept, undecided } = state;
    document.title = `${title} (preview)`;
    head.textContent = title;
    bar.replaceChildren(
      head,
      element('a', { href: '/' }, 'All cases'),
      ...pages.map(({ href, label, current }) =>
        element('a', { href: SHOWN_AT + href, ...(current && { 'aria-current': 'page' }) }, label),
      ),
      element(
        'p',
        { class: 'state soft' },
        token !== null
          ? 'Preview, not published'
          : frames.isEmpty()
            ? 'No page yet'
            : 'Not up to date',
      ),
    );
    const isStale = token === null && !frames.isEmpty();
    document.body.classList.toggle('stale', isStale);
    const open = told.querySelector('details')?.open ?? false;
    told.replaceChildren(
      ...[
        problemsView(problems),
        isStale ? element('p', { class: 'soft' }, 'Below is the page as it was before.') : null,
        token === null && problems.length === 0
          ? element(
              'p',
              { class: 'soft' },
              'The preview has no such page. It shows the documents of cases alone, as far as their records allow them; a build makes the others.',
            )
          : null,
        kept.length + undecided.length > 0
          ? element(
              'section',
              { class: 'kept', 'aria-label': 'Why a build would not publish this page' },
              element(
                'p',
                {},
                element('strong', {}, 'A build would not publish this page as it is.'),
              ),
              ...kept.map((why) => element('p', {}, why)),
              ...undecided.map(problemView),
            )
          : null,
        warnings.length > 0
          ? element(
              'details',
              open ? { open: '' } : {},
              element(
                'summary',
                {},
                `${counted(warnings.length, 'warning')}, not accepted by the record`,
              ),
              ...warnings.map(problemView),
            )
          : null,
      ].filter((view) => view !== null),
    );
    if (token === null) return;
    const address = `/${here.split('/').map(encodeURIComponent).join('/')}`;
    // A page that its reader went to by a link stands in the frame already.
    if (isMoved) frames.forget(token);
    else frames.show(address, token);
    isMoved = false;
  };
}
