import { contentAgain, parseContent } from './content.js';
import { disk } from './disk.js';
import { house } from './house.js';
import { loadLibrary } from './library/library.js';
import { forgetParsedWords, keepParsedWords } from './parsed-words.js';

// The last step of compiling. A mistake in the words is told by whatever command needs them.
const effects = disk(() => undefined);
const words = parseContent(house.content, effects);
const library = words.ok
  ? loadLibrary(house.content, contentAgain(house.content, words.value, effects), effects)
  : words;
if (words.ok && library.ok) keepParsedWords(words.value, library.value);
else forgetParsedWords();
