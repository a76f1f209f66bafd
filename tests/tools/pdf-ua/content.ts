/** One operator of a page's content with what stands before it. */
export interface Operation {
  readonly operator: string;
  readonly operands: readonly Operand[];
}

type Operand =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'name' | 'word'; readonly value: string }
  | { readonly kind: 'text'; readonly bytes: Buffer }
  | { readonly kind: 'list'; readonly items: readonly Operand[] }
  | { readonly kind: 'dict'; readonly entries: ReadonlyMap<string, Operand> };

const SPACE = /[\0\t\n\f\r ]/;
const END = /[\0\t\n\f\r ()<>[\]{}/%]/;

/** Content of a page as operations (ISO 32000-1, 7.8.2). An inline image stops the reading: no page here has one. */
export function operationsOf(content: Buffer): Operation[] {
  const text = content.toString('latin1');
  const operations: Operation[] = [];
  let operands: Operand[] = [];
  let at = 0;
  const skip = () => {
    while (at < text.length && SPACE.test(text[at] as string)) at += 1;
  };
  const word = () => {
    const from = at;
    while (at < text.length && !END.test(text[at] as string)) at += 1;
    return text.slice(from, at);
  };
  const literal = (): Buffer => {
    at += 1;
    let depth = 1;
    let found = '';
    while (depth > 0) {
      const letter = text[at] as string;
      at += 1;
      if (letter === '\\') {
        found += text[at];
        at += 1;
        continue;
      }
      if (letter === '(') depth += 1;
      if (letter === ')') depth -= 1;
      if (depth > 0) found += letter;
    }
    return Buffer.from(found, 'latin1');
  };
  const operand = (): Operand => {
    skip();
    const letter = text[at];
    if (letter === undefined) throw new Error('the content ends in the middle of an operand');
    if (letter === '/') {
      at += 1;
      return { kind: 'name', value: `/${word()}` };
    }
    if (letter === '(') return { kind: 'text', bytes: literal() };
    if (text.startsWith('<<', at)) {
      at += 2;
      const entries = new Map<string, Operand>();
      for (skip(); !text.startsWith('>>', at); skip()) {
        const key = operand();
        if (key.kind !== 'name') throw new Error('a key of a dictionary is no name');
        entries.set(key.value, operand());
      }
      at += 2;
      return { kind: 'dict', entries };
    }
    if (letter === '<') {
      const end = text.indexOf('>', at);
      const bytes = Buffer.from(text.slice(at + 1, end).replace(/\s/g, ''), 'hex');
      at = end + 1;
      return { kind: 'text', bytes };
    }
    if (letter === '[') {
      at += 1;
      const items: Operand[] = [];
      for (skip(); text[at] !== ']'; skip()) items.push(operand());
      at += 1;
      return { kind: 'list', items };
    }
    const found = word();
    if (found === '') throw new Error(`"${letter}" stands where an operand should`);
    return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(found)
      ? { kind: 'number', value: Number(found) }
      : { kind: 'word', value: found };
  };
  for (skip(); at < text.length; skip()) {
    const next = operand();
    if (next.kind !== 'word' || ['true', 'false', 'null'].includes(next.value)) {
      operands.push(next);
      continue;
    }
    if (next.value === 'BI') throw new Error('the content holds an inline image');
    operations.push({ operator: next.value, operands });
    operands = [];
  }
  return operations;
}

/** Operators that put ink on the page (ISO 32000-1, Annex A). */
const PAINTS = new Set('Tj TJ \' " S s f F f* B B* b b* sh Do'.split(' '));

/** Other ways to set the colour that fills, of which these files use none. */
const FILLS = new Set(['g', 'k', 'sc']);

const hexOf = (operands: readonly Operand[]): string =>
  `#${operands
    .map((part) => Math.round(255 * (part.kind === 'number' ? part.value : 0)))
    .map((part) => part.toString(16).padStart(2, '0'))
    .join('')}`;

/** Marked content around an operation. */
export interface Mark {
  readonly tag: string;
  readonly mcid: number | null;
}

export interface Painted {
  readonly operation: Operation;
  /** From the outermost inwards. */
  readonly marks: readonly Mark[];
  /** Name of the font in force. */
  readonly font: string | null;
  /** The colour that fills, as `#rrggbb`. */
  readonly fill: string;
}

/** Every operation that paints with its marks, and every mark with those around it. */
export function walkContent(operations: readonly Operation[]): {
  painted: Painted[];
  opened: { mark: Mark; around: readonly Mark[] }[];
} {
  const painted: Painted[] = [];
  const opened: { mark: Mark; around: readonly Mark[] }[] = [];
  let marks: Mark[] = [];
  let state = { font: null as string | null, fill: '#000000' };
  const kept: (typeof state)[] = [];
  for (const operation of operations) {
    const { operator, operands } = operation;
    const [first, second] = operands;
    if (operator === 'BDC' || operator === 'BMC') {
      const id = second?.kind === 'dict' ? second.entries.get('/MCID') : undefined;
      const mark = {
        tag: first?.kind === 'name' ? first.value : '',
        mcid: id?.kind === 'number' ? id.value : null,
      };
      opened.push({ mark, around: marks });
      marks = [...marks, mark];
    } else if (operator === 'EMC') marks = marks.slice(0, -1);
    else if (operator === 'q') kept.push(state);
    else if (operator === 'Q') state = kept.pop() ?? state;
    else if (operator === 'Tf' && first?.kind === 'name') state = { ...state, font: first.value };
    else if (operator === 'scn' || operator === 'rg') state = { ...state, fill: hexOf(operands) };
    else if (FILLS.has(operator)) throw new Error(`a colour is set by ${operator}`);
    else if (PAINTS.has(operator)) painted.push({ operation, marks, ...state });
  }
  return { painted, opened };
}

/** The codes of a text operation, two bytes each, as fonts of Type 0 with Identity-H take them. */
export function codesOf({ operands }: Operation): number[] {
  const texts = operands
    .flatMap((operand) => (operand.kind === 'list' ? operand.items : [operand]))
    .flatMap((operand) => (operand.kind === 'text' ? [operand.bytes] : []));
  return texts.flatMap((bytes) =>
    Array.from({ length: bytes.length / 2 }, (_, i) => bytes.readUInt16BE(2 * i)),
  );
}
