import { type Dict, isReference, type PdfObjects, textOf, type Value } from './objects.js';

/** A node of the structure tree. */
export interface Node {
  readonly reference: string;
  readonly dict: Dict;
  /** Its type by the role map. */
  readonly type: string;
  readonly parent: Node | null;
  readonly kids: readonly Node[];
  /** Marked content that it holds, as `page reference#number`. */
  readonly content: readonly string[];
  /** References of annotations that it holds. */
  readonly annotations: readonly string[];
}

/** The top nodes of the structure tree. */
export function structureOf(pdf: PdfObjects): Node[] {
  const root = pdf.dict(pdf.catalog['/StructTreeRoot']);
  return kidsOf(pdf, root).flatMap((kid) => nodesOf(pdf, kid, null, null));
}

/** All nodes, each before what it holds: the order in which they are read. */
export const allNodes = (nodes: readonly Node[]): Node[] =>
  nodes.flatMap((node) => [node, ...allNodes(node.kids)]);

/** Standard types of ISO 32000-1, 14.8.4. */
export const STANDARD = new Set(
  [
    'Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private',
    'P H H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot',
    'Span Quote Note Reference BibEntry Code Link Annot Ruby RB RT RP Warichu WT WP',
    'Figure Formula Form',
  ]
    .join(' ')
    .split(' ')
    .map((name) => `/${name}`),
);

/** A type by the role map; null where the map goes round in a circle. */
export function standardType(pdf: PdfObjects, type: string): string | null {
  const roles = pdf.dict(pdf.dict(pdf.catalog['/StructTreeRoot'])['/RoleMap']);
  const seen = new Set<string>();
  let now = type;
  for (;;) {
    const next = roles[now];
    if (STANDARD.has(now) || typeof next !== 'string') return now;
    if (seen.has(now)) return null;
    seen.add(now);
    now = next;
  }
}

const kidsOf = (pdf: PdfObjects, dict: Dict): Value[] => pdf.list(dict['/K']);

function nodesOf(
  pdf: PdfObjects,
  value: Value,
  parent: Node | null,
  pageAbove: Value | null,
): Node[] {
  if (!isReference(value)) return [];
  const dict = pdf.dict(value);
  const type = String(dict['/S'] ?? '');
  const page = dict['/Pg'] ?? pageAbove;
  const content: string[] = [];
  const annotations: string[] = [];
  const kids: Node[] = [];
  const node: Node = {
    reference: value,
    dict,
    type: standardType(pdf, type) ?? type,
    parent,
    kids,
    content,
    annotations,
  };
  for (const kid of kidsOf(pdf, dict)) {
    if (typeof kid === 'number') content.push(`${page}#${kid}`);
    else if (isReference(kid)) kids.push(...nodesOf(pdf, kid, node, page));
    else {
      const part = pdf.dict(kid);
      if (part['/Type'] === '/MCR') content.push(`${part['/Pg'] ?? page}#${part['/MCID']}`);
      if (part['/Type'] === '/OBJR') annotations.push(String(part['/Obj']));
    }
  }
  return [node];
}

/** An attribute of a node, whoever owns it. */
export function attributeOf(pdf: PdfObjects, { dict }: Node, name: string): Value {
  for (const attributes of pdf.list(dict['/A'])) {
    const found = pdf.dict(attributes)[name];
    if (found !== undefined) return pdf.get(found);
  }
  return null;
}

/** Whether a node or one above it states its language. */
export const languageAbove = (node: Node | null): string | null =>
  node && (textOf(node.dict['/Lang']) || languageAbove(node.parent));

/** Number tree to a map (ISO 32000-1, 7.9.7). */
export function numberTree(pdf: PdfObjects, value: Value | undefined): Map<number, Value> {
  const { '/Nums': pairs, '/Kids': kids } = pdf.dict(value);
  const own = pdf.list(pairs);
  const found = new Map<number, Value>();
  for (let i = 0; i < own.length; i += 2) found.set(own[i] as number, own[i + 1] as Value);
  for (const kid of pdf.list(kids)) {
    for (const [key, entry] of numberTree(pdf, kid)) found.set(key, entry);
  }
  return found;
}
