import { IntlMessageFormat } from 'intl-messageformat';

/** The words of a text in small letters; a single letter is none. */
export const wordsIn = (text: string): readonly string[] =>
  text.toLowerCase().match(/\p{L}{2,}/gu) ?? [];

/** Every word that messages in ICU MessageFormat say, in whichever of their choices, in small letters. */
export const vocabularyOf = (messages: readonly string[]): ReadonlySet<string> =>
  new Set(messages.flatMap((message) => wordsIn(message.includes('{') ? said(message) : message)));

type Part = ReturnType<IntlMessageFormat['getAst']>[number];

const said = (message: string): string =>
  new IntlMessageFormat(message, 'en', undefined, { ignoreTag: true })
    .getAst()
    .flatMap(literalsOf)
    .join(' ');

function literalsOf(part: Part): string[] {
  if ('options' in part) {
    return Object.values(part.options).flatMap(({ value }) => value.flatMap(literalsOf));
  }
  return isLiteral(part) ? [part.value] : [];
}

/** 0 is the parser's number for what stands between placeholders. */
const isLiteral = (part: Part): part is Extract<Part, { type: 0 }> => part.type === 0;
