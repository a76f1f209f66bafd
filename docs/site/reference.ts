import { readdirSync, readFileSync } from 'node:fs';
import { join, posix, relative, sep } from 'node:path';
import { parseSync } from 'rolldown/utils';

/** Something that a module exports. */
export interface Exported {
  readonly name: string;
  /** Its declaration as the compiler writes it, with the comments on its members. */
  readonly shape: string;
  /** Its docstring as Markdown; empty where it has none. */
  readonly about: string;
}

/** What a module exports, in the order of the module. */
export interface ModuleReference {
  /** Path under `src`, such as `signal/analyse.ts`. */
  readonly path: string;
  readonly exports: readonly Exported[];
}

/** The floors whose modules are told, and for one of them only those that other floors begin with. */
const TOLD: readonly { readonly floor: string; readonly only?: readonly string[] }[] = [
  { floor: 'signal' },
  { floor: 'vitals' },
  { floor: 'care' },
  { floor: 'facts' },
  { floor: 'privacy' },
  { floor: 'words/reading' },
  {
    floor: 'draw',
    only: [
      'drawing.ts',
      'svg.ts',
      'ecg/row.ts',
      'ecg/strip.ts',
      'ecg/sheets.ts',
      'vitals/chart.ts',
      'vitals/chart-data.ts',
      'anesthesia-chart.ts',
      'heart/heart.ts',
      'incision/incision.ts',
      'syringe.ts',
      'qr-code.ts',
    ],
  },
];

/** The modules of the pure floors by folder, read from the declarations that the compiler has written. */
export function referenceOf(declarations: string): ReadonlyMap<string, ModuleReference[]> {
  const folders = new Map<string, ModuleReference[]>();
  for (const { floor, only } of TOLD) {
    const files = readdirSync(join(declarations, floor), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name.endsWith('.d.ts'))
      .map((entry) => join(entry.parentPath, entry.name))
      .sort();
    for (const file of files) {
      const path = relative(declarations, file)
        .split(sep)
        .join('/')
        .replace(/\.d\.ts$/, '.ts');
      if (only && !only.some((name) => path === `${floor}/${name}`)) continue;
      const exports = exportsOf(readFileSync(file, 'utf8'));
      if (exports.length === 0) continue;
      const folder = posix.dirname(path);
      folders.set(folder, [...(folders.get(folder) ?? []), { path, exports }]);
    }
  }
  return folders;
}

/** What a module of declarations exports by name; what it hands on from other modules is told there. */
export function exportsOf(declarations: string): Exported[] {
  const { program, comments } = parseSync('module.d.ts', declarations);
  const docs = comments.filter(({ type, value }) => type === 'Block' && value.startsWith('*'));
  return program.body.flatMap((statement) => {
    if (statement.type !== 'ExportNamedDeclaration' || !statement.declaration) return [];
    const { declaration, start, end } = statement;
    const doc = docs.findLast(
      (one) => one.end <= start && declarations.slice(one.end, start).trim() === '',
    );
    const named = 'declarations' in declaration ? declaration.declarations[0] : declaration;
    const id = named && 'id' in named ? named.id : null;
    if (id?.type !== 'Identifier') return [];
    return [
      {
        name: id.name,
        shape: laidOut(declarations.slice(start, end).replace(/^export (declare )?/, '')),
        about: doc ? aboutIn(doc.value) : '',
      },
    ];
  });
}

/** A docstring as Markdown: without the stars in front of its lines, its parameters as a list. */
const aboutIn = (comment: string): string =>
  comment
    .replace(/^\*/, '')
    .split('\n')
    .map((line) => line.replace(/^\s*\* ?/, '').trimEnd())
    .join('\n')
    .trim()
    .replace(/^@param (\w+) /gm, '\n- `$1`: ')
    .replace(/^@returns? /gm, '\n- gives ');

/** A line that holds this much can be read without scrolling. */
const WIDEST = 72;

/** A declaration with two spaces for each step, and the parameters of a long function below one another. */
function laidOut(declaration: string): string {
  const shape = declaration.replace(/^ +/gm, (indent) => ' '.repeat(indent.length / 2));
  const opening = /^(function \w+(<[^(]*>)?|const \w+: (<[^(]*>)?)\(/.exec(shape)?.[0].length;
  if (opening === undefined || (shape.split('\n')[0] as string).length <= WIDEST) return shape;
  const parts: string[] = [];
  let depth = 0;
  let from = opening;
  for (let at = opening; at < shape.length; at++) {
    const letter = shape[at] as string;
    // The head of an arrow is no bracket.
    if (letter === '>' && shape[at - 1] === '=') continue;
    if ('([{<'.includes(letter)) depth++;
    if (depth === 0 && (letter === ',' || letter === ')')) {
      parts.push(shape.slice(from, at).trim());
      from = at + 1;
      if (letter === ')') break;
    }
    if (')]}>'.includes(letter)) depth--;
  }
  return `${shape.slice(0, opening)}\n${parts.map((part) => `  ${part},\n`).join('')})${shape.slice(from)}`;
}
