/** Where a clinical number may come from: a named source, common practice, or an honest admission, in either language. */
const NAMED =
  /\bSource: \S|Fuente: \S|\b(AAHA|IEC \d|ISMP|RFC \d|NIST)|common practice|práctica habitual|from memory, unverified|de memoria, sin verificar/i;

/** For numbers of the program's own working, which no patient depends on. */
const TECHNICAL = /not a clinical number/i;

const namesSource = (text: string): boolean => NAMED.test(text);

/** A constant in capitals whose value holds a number, with the comment above it. */
interface Constant {
  readonly name: string;
  readonly line: number;
  readonly comment: string;
}

/** The constants in capitals of a TypeScript source that hold a number, at the top level of the file. */
export function numericConstants(source: string): Constant[] {
  const declaration =
    /(\/\*\*(?:(?!\*\/)[\s\S])*\*\/\n)?(?:export )?const ([A-Z][A-Z0-9_]+)\b[^=\n]*=((?:(?!;\n)[\s\S])*);\n/g;
  return [...source.matchAll(declaration)].flatMap(
    ([whole, comment = '', name = '', value = ''], index, all) => {
      const start = all[index]?.index ?? 0;
      const line = source.slice(0, start + whole.indexOf('const ')).split('\n').length;
      return /(?<![\w$])\d/.test(withoutTexts(value)) ? [{ name, line, comment }] : [];
    },
  );
}

/** A value without its strings, regular expressions and remarks, whose digits are no numbers. */
function withoutTexts(value: string): string {
  return value
    .replace(/\/\/.*|\/\*[\s\S]*?\*\//g, '')
    .replace(/'(?:\\.|[^'\\])*'|"(?:\\.|[^"\\])*"|`(?:\\.|[^`\\])*`/g, '')
    .replace(/\/(?![*/])(?:\\.|[^/\\\n])+\/[a-z]*/g, '');
}

/** A remark over a whole file of method, whose numbers are all of one kind. */
const TECHNICAL_FILE = /^\/\/ .*not clinical numbers/im;

/** Constants that say neither whence their number comes nor that no patient depends on it. */
export const unsourcedConstants = (source: string): string[] =>
  numericConstants(source)
    .filter(({ comment }) => !namesSource(comment) && !TECHNICAL.test(comment))
    .filter(() => !TECHNICAL_FILE.test(source))
    .map(({ name, line }) => `${line}: ${name}`);

/** A number with a unit that a clinician would act on, English or Spanish. */
const CLINICAL =
  /(?<![\p{L}\d.])\d+(?:[.,]\d+)?(?:\s?(?:-|to|a)\s?\d+)?\s?(?:mg|mcg|µg|mL|kg|lb|mmHg|kPa|mV|mm|cm|°C|°F|%|Hz|bpm|beats|breaths|latidos|resp\.|hours?|horas?|minutes?|minutos?|min|days?|días?|weeks?|semanas?|s|h)(?![\p{L}\d])/u;

/** A passage of a content file, and the remarks that speak of its whole section. */
interface Passage {
  readonly line: number;
  readonly text: string;
  readonly remarks: string;
}

/** Lines with a clinical number whose source neither they nor the remarks of their section name. */
export const unsourcedPassages = (file: string, text: string): string[] =>
  (file.endsWith('.md') ? markdownPassages(text) : yamlPassages(text))
    .filter((passage) => CLINICAL.test(passage.text))
    .filter((passage) => !namesSource(`${passage.text}\n${passage.remarks}`))
    // The explanations name theirs by marks, each of which must lead to a source of the page.
    .filter((passage) => !(/\blibrary\b/.test(file) && /\[[a-z][a-z0-9]*\]/.test(passage.text)))
    .map(({ line, text: passage }) => `${line}: ${passage.trim()}`);

/** One passage a line; a section reaches from one key at the margin to the next, with the remarks above the key. */
function yamlPassages(text: string): Passage[] {
  const lines = text.split('\n');
  const starts = lines.flatMap((line, index) => (/^[^\s#]/.test(line) ? [index] : []));
  return starts.flatMap((start, index) => {
    const above: string[] = [];
    for (let row = start - 1; lines[row]?.startsWith('#'); row--) above.push(lines[row] as string);
    const section = lines.slice(start, starts[index + 1] ?? lines.length);
    const own = section.filter((line) => /^\s+#/.test(line));
    const remarks = [...above, ...own].join('\n');
    return section.flatMap((line, row) =>
      /^\s*#/.test(line)
        ? []
        : [{ line: start + row + 1, text: line.replace(/\{\w+\}/g, ''), remarks }],
    );
  });
}

/** One passage a paragraph; what stands in backquotes or fences shows a form and claims nothing. */
function markdownPassages(text: string): Passage[] {
  const spoken = text
    .replace(/^```[\s\S]*?^```/gm, (fence) => fence.replace(/[^\n]/g, ''))
    .replace(/`[^`\n]*`/g, '');
  let line = 1;
  return spoken.split(/\n{2,}/).map((paragraph) => {
    const at = line;
    line += paragraph.split('\n').length + 1;
    return { line: at, text: paragraph, remarks: '' };
  });
}
