const NAMES = [
  'paper',
  'fine',
  'bold',
  'trace',
  'faint',
  'soft',
  'ink',
  'accent',
  'early',
  'wash',
  'caliper',
] as const;

/** The colours of the strip, as its style sheet sets them for the scheme of the page. */
export type Inks = Readonly<Record<(typeof NAMES)[number], string>>;

export function inksOf(panel: Element): Inks {
  const style = getComputedStyle(panel);
  return Object.fromEntries(
    NAMES.map((name) => [name, style.getPropertyValue(`--strip-${name}`).trim()]),
  ) as Inks;
}

/** Calls when the reader or the page changes the scheme. */
export function whenSchemeChanges(heed: () => void): void {
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', heed);
  new MutationObserver(heed).observe(document.documentElement, {
    attributes: true,
    attributeFilter: ['data-scheme', 'class'],
  });
}
