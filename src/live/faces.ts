/**
 * Asks for the faces of every page as soon as the style has named them: a face that is there before the page is laid out
 * moves nothing. A browser does not preload a face for a page that is opened from a folder.
 */
export function askForFaces(): void {
  for (const cut of ['400', '700']) {
    // A face that does not come is no fault: the page is then set in another.
    document.fonts.load(`${cut} 1em "Atkinson Hyperlegible Next"`).catch(() => undefined);
  }
}
