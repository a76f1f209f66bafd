import { type Inks, inks } from '../../draw/inks.js';

/** Custom properties of the page that stand for the inks of a figure on screen. */
const PROPERTIES = {
  ink: '--chart-ink',
  soft: '--chart-soft',
  faint: '--chart-faint',
  accent: '--chart-accent',
  rule: '--chart-rule',
  tint: '--chart-tint',
  shade: '--chart-shade',
  paper: '--chart-paper',
} as const satisfies Partial<Record<keyof Inks, string>>;

/** The inks of the scheme that the page is shown in; paper's own where it names none. */
export function pageInks(): Inks {
  const style = getComputedStyle(document.documentElement);
  const named = Object.entries(PROPERTIES).flatMap(([ink, property]) => {
    const colour = style.getPropertyValue(property).trim();
    return colour === '' ? [] : [[ink, colour]];
  });
  return { ...inks, ...Object.fromEntries(named) };
}

/** Calls back when the reader's scheme changes, by the system or by the page's own switch. */
export function onSchemeChange(draw: () => void): void {
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', draw);
  new MutationObserver(draw).observe(document.documentElement, {
    attributes: true,
    attributeFilter: ['data-scheme'],
  });
}
