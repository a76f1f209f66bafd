/** Light or dark colours: what the reader chose, else what the device asks for. */
type Scheme = 'light' | 'dark';

const KEY = 'thrice-scheme';

/** What the reader chose on an earlier page; null where nothing was, or where a browser keeps nothing for a folder. */
export function rememberedScheme(): Scheme | null {
  try {
    const kept = localStorage.getItem(KEY);
    return kept === 'light' || kept === 'dark' ? kept : null;
  } catch {
    return null;
  }
}

function remember(scheme: Scheme): void {
  try {
    localStorage.setItem(KEY, scheme);
  } catch {
    // The choice then holds for this page alone.
  }
}

/** The button of the masthead: pressed while the page is dark, by choice or by the device. */
export function schemeButton(root: HTMLElement): void {
  const button = document.querySelector<HTMLButtonElement>('button.scheme');
  if (!button) return;
  const device = matchMedia('(prefers-color-scheme: dark)');
  const isDark = () => (root.dataset.scheme ?? (device.matches ? 'dark' : 'light')) === 'dark';
  const show = () => button.setAttribute('aria-pressed', String(isDark()));
  button.addEventListener('click', () => {
    const scheme = isDark() ? 'light' : 'dark';
    root.dataset.scheme = scheme;
    remember(scheme);
    show();
  });
  device.addEventListener('change', show);
  show();
}
