import { HELP } from '../../src/cli/help.js';
import { PROBLEM_NUMBERS, type ProblemKind } from '../../src/record/problem-kind.js';

const AREAS: Readonly<Record<string, string>> = {
  T1: 'Files and folders',
  T2: 'What a YAML file says',
  T3: 'A case that contradicts itself, its clinic or its formulary',
  T4: 'Tables of vital signs',
  T5: 'Waveform files',
  T6: 'What is kept from the public',
  T7: 'The words of the documents',
  T8: 'What is written',
  T9: 'A fault of the program',
};

/** The exit codes, as the help of all commands tells them. */
const exitCodes = /Exit codes\n([\s\S]*?)\n\n/.exec(HELP.all)?.[1] ?? '';

/** `docs/messages.md`: each kind of problem with its number and a message that was really given. */
export function messagesPage(
  examples: ReadonlyMap<ProblemKind, string>,
  because: ReadonlyMap<ProblemKind, string>,
): string {
  const kinds = Object.entries(PROBLEM_NUMBERS) as [ProblemKind, string][];
  const sections = Object.entries(AREAS).map(([area, title]) => {
    const entries = kinds
      .filter(([, number]) => number.startsWith(area))
      .map(([kind, number]) => {
        const example = examples.get(kind);
        const shown = example === undefined ? because.get(kind) : `\`\`\`\n${example}\n\`\`\``;
        return `### ${number} ${kind}\n\n${shown}\n`;
      });
    return `## ${area} ${title}\n\n${entries.join('\n')}`;
  });
  return `${INTRODUCTION.replace('EXIT CODES', exitCodes)}\n${sections.join('\n')}`;
}

const INTRODUCTION = `# Messages

Every command tells all problems that it finds at once, each in the same form:

- its place: \`file:line:column\` and the field, or the byte in a file that is not text, and behind it the number of its kind;
- the line itself with what is meant underlined, where there is one;
- what was found, what was expected and how to mend it.

A number keeps its meaning in every version. \`Warning:\` stands before what a veterinarian may have meant; it stops nothing, except under \`--strict\` and in \`thrice approve\`, and where the record can answer it, \`accepted because: { T332: "the reason" }\` does so, with its number; where a part of the record has several of one number, it takes a list with a reason for each, in their order. \`thrice check --json\` and \`thrice build --json\` give all of this to an editor, with the range to underline (\`thrice check --help\`).

The messages on this page are those that the program gave for files broken on purpose; "npm run messages" asks for them anew.

## Exit codes

\`\`\`
EXIT CODES
\`\`\`
`;
