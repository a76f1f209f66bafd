import { REFERENCE } from './pages.js';
import type { Exported, ModuleReference } from './reference.js';

/** A page of the reference, as Markdown. */
export interface ReferencePage {
  readonly file: string;
  readonly title: string;
  readonly text: string;
}

/** One page for each folder, and one that leads to them and names what has no docstring. */
export function referencePages(folders: ReadonlyMap<string, ModuleReference[]>): ReferencePage[] {
  const pages = [...folders].map(([folder, modules]) => ({
    file: `api/${nameOf(folder)}.html`,
    title: `src/${folder}`,
    text: [
      `# src/${folder}\n`,
      modules
        .map(({ path, exports }) => {
          const names = exports.map(({ name }) => `\`${name}\``).join(', ');
          return `- [${leafOf(path)}](#${anchorFor(leafOf(path))}): ${names}`;
        })
        .join('\n'),
      ...modules.map(moduleText),
    ].join('\n'),
  }));
  const rows = [...folders].map(([folder, modules]) => {
    const count = modules.reduce((sum, { exports }) => sum + exports.length, 0);
    return `| [src/${folder}](${nameOf(folder)}.html) | ${modules.length} | ${count} |`;
  });
  return [
    {
      file: REFERENCE.file,
      title: REFERENCE.label,
      text: [INTRODUCTION, '| folder | modules | exports |\n| --- | ---: | ---: |', ...rows].join(
        '\n',
      ),
    },
    ...pages,
  ];
}

const INTRODUCTION = `# Reference

What the modules of the pure floors export: the shape as the compiler knows it, and what its docstring says of units, errors and sources. The floors and what may import what stand in [How the house is built](../developers.html).

Where nothing else is said: mV, seconds, mmHg, beats/min, kg, °C, mm; times count from the first sample of a strip or from the start of anesthesia. No function here reads a file, a clock or a locale, and none throws for what a user's file says: it gives an \`Outcome\`, a value or every problem with its place.

Of \`src/draw\` only the modules that other floors begin with are told.
`;

const moduleText = ({ path, exports }: ModuleReference): string =>
  [`\n## ${leafOf(path)}\n`, ...exports.map(exportText)].join('\n');

const exportText = ({ name, shape, about }: Exported): string =>
  `### ${name}\n\n${about === '' ? '' : `${about}\n\n`}\`\`\`ts\n${shape}\n\`\`\`\n`;

/** What has no docstring. */
export const muteIn = (exports: readonly Exported[]): string[] =>
  exports.filter(({ about }) => about === '').map(({ name }) => name);

const nameOf = (folder: string): string => folder.replaceAll('/', '-');
const leafOf = (path: string): string => path.split('/').at(-1) as string;
/** The id that a heading gets. */
const anchorFor = (leaf: string): string => leaf.replace(/[^\p{L}\p{N}]+/gu, '-');
