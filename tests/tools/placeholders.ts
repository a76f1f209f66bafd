import { IntlMessageFormat } from 'intl-messageformat';

type Part = ReturnType<IntlMessageFormat['getAst']>[number];

/** The names between braces that a message asks for, sorted; text between `one {…}` included. */
export function placeholders(message: string, language: string): string[] {
  const ast = new IntlMessageFormat(message, language, undefined, { ignoreTag: true }).getAst();
  const names = (parts: readonly Part[]): string[] =>
    parts.flatMap((part) => [
      // A literal has its text as value, `#` has none; everything else is asked for by name.
      ...('value' in part && part.type !== 0 ? [part.value] : []),
      ...('options' in part
        ? Object.values(part.options).flatMap((option) => names(option.value))
        : []),
    ]);
  return [...new Set(names(ast))].sort();
}
