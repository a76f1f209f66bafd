/** What every page of the public site has. It runs before the page is drawn, and again in part once it is there. */
import { askForFaces } from './faces.js';
import { rememberedScheme, schemeButton } from './scheme.js';

const root = document.documentElement;
// Controls that need scripts stay hidden without them.
root.classList.add('scripted');
const scheme = rememberedScheme();
if (scheme) root.dataset.scheme = scheme;
askForFaces();
document.addEventListener('DOMContentLoaded', () => schemeButton(root));
