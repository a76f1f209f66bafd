import { type ListedCase, type ListState, SHOWN_AT, type ToldLink } from './contract.js';
import { element } from './element.js';
import { counted, problemsView } from './problems.js';

/** The list of cases, drawn anew at every change. */
export function showList({ clinic, problems, cases, reading }: ListState): void {
  document.title = `Preview: ${clinic}`;
  document.body.className = 'list';
  const table = element(
    'table',
    {},
    element(
      'thead',
      {},
      element(
        'tr',
        {},
        ...['Case', 'Pages', 'Sheet', 'To look at'].map((title) =>
          element('th', { scope: 'col' }, title),
        ),
      ),
    ),
    element('tbody', {}, ...cases.map(row)),
  );
  const main = element(
    'main',
    {},
    element('h1', {}, clinic),
    element(
      'p',
      { class: 'soft' },
      'Preview for this machine alone; nothing here is published. Each page follows what is saved.',
    ),
    element(
      'p',
      { class: 'soft', role: 'status' },
      reading ? `Reading cases: ${reading.read} of ${reading.of}` : counted(cases.length, 'case'),
    ),
    ...[problemsView(problems)].filter((view) => view !== null),
    ...(cases.length > 0 ? [table] : []),
  );
  document.body.replaceChildren(main);
}

function row({ name, patient, state, problems, warnings, pages, kept }: ListedCase): HTMLElement {
  const links = pages.length > 0 ? pages : problems > 0 ? [sheetOf(name)] : [];
  return element(
    'tr',
    {},
    element(
      'th',
      { scope: 'row' },
      patient ?? name,
      patient === null ? null : element('span', { class: 'folder' }, name),
    ),
    element(
      'td',
      {},
      ...links.map(({ href, label }) => element('a', { href: SHOWN_AT + href }, label)),
    ),
    element('td', {}, state),
    element(
      'td',
      {},
      problems > 0 ? element('p', { class: 'wrong' }, counted(problems, 'problem')) : null,
      warnings > 0 ? element('p', {}, counted(warnings, 'warning')) : null,
      kept.length > 0 ? element('p', { class: 'soft' }, `Not public: ${kept.join(', ')}`) : null,
    ),
  );
}

/** Where the problems of a case stand that could not be read. */
const sheetOf = (name: string): ToldLink => ({
  href: `private/${encodeURIComponent(name)}/discharge.html`,
  label: 'What is wrong',
});
