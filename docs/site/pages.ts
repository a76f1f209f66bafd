/** A page of the documentation. */
export interface DocsPage {
  /** Its Markdown, from the top of the project. */
  readonly source: string;
  /** Its place in the site. */
  readonly file: string;
  /** What links to it say. */
  readonly label: string;
  /** Whether it stands at the head of every page, or only at the foot. */
  readonly isMain: boolean;
}

const page = (source: string, file: string, label: string, isMain = false): DocsPage => ({
  source,
  file,
  label,
  isMain,
});

export const HOME = 'index.html';

/** Where the reference begins; it has no Markdown of its own. */
export const REFERENCE = { file: 'api/index.html', label: 'Reference' };

/** The pages that are written by hand or by other commands, in the order of the navigation. */
export const PAGES: readonly DocsPage[] = [
  page('docs/README.md', HOME, 'Documentation', true),
  page('docs/authors.md', 'authors.html', 'For authors', true),
  page('docs/clinics.md', 'clinics.html', 'For clinics', true),
  page('docs/contributors.md', 'contributors.html', 'For contributors', true),
  page('README.md', 'readme.html', 'The project'),
  page('DEVELOPERS.md', 'developers.html', 'How the house is built'),
  page('docs/messages.md', 'messages.html', 'Messages'),
  page('docs/many-machines.md', 'many-machines.html', 'Many machines'),
  page('docs/privacy.md', 'privacy.html', 'Privacy'),
  page('docs/privacy-proof.md', 'privacy-proof.html', 'The search for identifiers'),
  page('docs/pack.md', 'pack.html', 'The pack'),
  page('docs/plain-language-scores.md', 'plain-language-scores.html', 'Plain language'),
  page('docs/truth.md', 'truth.html', 'Truth'),
];
