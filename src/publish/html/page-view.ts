import { toSvg } from '../../draw/svg.js';
import type {
  Block,
  Cell,
  ExerciseBlock,
  FigureBlock,
  Handout,
  Telephone,
} from '../../words/handout.js';
import type { MadeDocument } from '../make-case.js';
import { headingAnchors } from './anchors.js';
import type { TreeFile } from './tree-file.js';

/** A figure of a page: drawings stand in the page itself, pictures beside it as files. */
interface FigureView {
  readonly kind: 'figure';
  readonly name: string;
  readonly caption: unknown;
  readonly alternative: string;
  readonly table: BlockView | null;
  readonly svg: string | null;
  readonly src: string | null;
  readonly width: number;
  readonly height: number;
}

/** A warning, each of its numbers ready to be dialled at a touch. */
type WarningView = Omit<Warning, 'telephones'> & {
  readonly telephones: readonly (Telephone & { readonly href: string | null })[];
};

type Warning = Extract<Block, { tone: 'warning' }>;
type First = Extract<Block, { tone: 'first' }>;

type Table = Extract<Block, { kind: 'table' }>;

/** A cell, its picture ready to be shown. */
type CellView =
  | Extract<Cell, { kind: 'said' }>
  | (Omit<Extract<Cell, { kind: 'ticks' }>, 'figure'> & { readonly figure: FigureView | null })
  | (Omit<Extract<Cell, { kind: 'lines' }>, 'figure'> & { readonly figure: FigureView | null });

type Heading = Extract<Block, { kind: 'heading' }>;

type BlockView =
  | Exclude<
      Block,
      | Warning
      | First
      | { kind: 'heading' | 'figure' | 'page' | 'beside' | 'table' | 'fold' | 'exercise' }
    >
  /** A heading with its place in the page's address. */
  | (Heading & { readonly id: string })
  | (Omit<Table, 'rows'> & { readonly rows: readonly (readonly CellView[])[] })
  | WarningView
  | (Omit<First, 'picture'> & { readonly picture: FigureView | null })
  | FigureView
  | { kind: 'page'; blocks: BlockView[] }
  | { kind: 'fold'; title: string; blocks: BlockView[] }
  | (Omit<ExerciseBlock, 'figure'> & { readonly figure: FigureView | null })
  | { kind: 'beside'; left: BlockView[]; right: BlockView[] };

/** A part of the lines that say whom a sheet is from; a telephone number leads to a call. */
interface SenderPart {
  readonly text: string;
  readonly href: string | null;
}

/** What the templates need of a document. */
export interface PageView extends Omit<Handout, 'blocks' | 'code' | 'sender'> {
  readonly sender: readonly (readonly SenderPart[])[];
  readonly address: string;
  /** From the page back to the top of its tree, for example `../`. */
  readonly root: string;
  readonly pdf: string;
  readonly code: BlockView | null;
  readonly blocks: readonly BlockView[];
}

const CSS_PIXELS_PER_MM = 96 / 25.4;

/** A document for its template, and the pictures that stand beside it. */
export function pageView({ address, handout }: Pick<MadeDocument, 'address' | 'handout'>): {
  view: PageView;
  files: TreeFile[];
} {
  const files: TreeFile[] = [];
  const stem = address.split('/').at(-1) as string;
  const folder = address.slice(0, -stem.length);
  const ids = headingAnchors(handout.blocks);
  const see = (block: Block): BlockView => {
    if (block.kind === 'heading') return { ...block, id: ids.get(block) as string };
    if (block.kind === 'page') return { kind: 'page', blocks: block.blocks.map(see) };
    if (block.kind === 'fold') {
      return { kind: 'fold', title: block.title, blocks: block.blocks.map(see) };
    }
    if (block.kind === 'exercise') {
      return { ...block, figure: block.figure ? show(block.figure) : null };
    }
    if (block.kind === 'beside') {
      return { kind: 'beside', left: block.left.map(see), right: block.right.map(see) };
    }
    if (block.kind === 'callout' && block.tone === 'warning') return dialled(block);
    if (block.kind === 'callout' && block.tone === 'first') {
      return { ...block, picture: block.picture ? show(block.picture) : null };
    }
    if (block.kind === 'table') {
      return { ...block, rows: block.rows.map((row) => row.map(seeCell)) };
    }
    return block.kind === 'figure' ? show(block) : block;
  };
  const seeCell = (cell: Cell): CellView =>
    cell.kind === 'said' ? cell : { ...cell, figure: cell.figure ? show(cell.figure) : null };
  const show = (block: FigureBlock): FigureView => {
    const { figure, name, caption, alternative } = block;
    const table = block.table ? see(block.table) : null;
    const common = { kind: 'figure' as const, name, caption, alternative, table };
    if (figure.kind === 'drawing') {
      const svg = toSvg(figure.drawing, { title: name, description: alternative });
      return {
        ...common,
        svg,
        src: null,
        width: figure.drawing.width,
        height: figure.drawing.height,
      };
    }
    const file = `${stem}-${name}.jpg`;
    files.push({ path: `${folder}${file}`, bytes: () => figure.image.bytes });
    return {
      ...common,
      svg: null,
      src: file,
      width: Math.round(figure.image.widthMm * CSS_PIXELS_PER_MM),
      height: Math.round(figure.image.heightMm * CSS_PIXELS_PER_MM),
    };
  };
  return {
    view: {
      ...handout,
      sender: handout.sender.map((line) => senderParts(line, telephonesIn(handout.blocks))),
      address,
      root: '../'.repeat(address.split('/').length - 1),
      pdf: `${stem}.pdf`,
      code: handout.code ? see(handout.code) : null,
      blocks: handout.blocks.map(see),
    },
    files,
  };
}

/** The numbers that a sheet gives to be called. */
const telephonesIn = (blocks: readonly Block[]): readonly Telephone[] =>
  blocks.flatMap((block) =>
    block.kind === 'callout' && block.tone === 'warning' ? block.telephones : [],
  );

function senderParts(line: string, telephones: readonly Telephone[]): SenderPart[] {
  let parts: readonly SenderPart[] = [{ text: line, href: null }];
  for (const telephone of telephones) {
    const href = hrefOf(telephone);
    // In running text a number stands on one line.
    const written = telephone.number.replaceAll(' ', '\u00a0');
    parts = parts.flatMap((part) => {
      if (href === null || part.href !== null) return part;
      const [before = '', ...rest] = part.text.split(written);
      return [
        { text: before, href: null },
        ...rest.flatMap((text) => [
          { text: written, href },
          { text, href: null },
        ]),
      ];
    });
  }
  return parts.filter(({ text }) => text !== '');
}

const dialled = (block: Warning): WarningView => ({
  ...block,
  telephones: block.telephones.map((telephone) => ({ ...telephone, href: hrefOf(telephone) })),
});

/** RFC 3966 allows digits, a leading plus and dashes. A number with words in it is left to be read, never dialled wrong. */
function hrefOf({ number }: Telephone): string | null {
  if (!/^\+?[\d\s().-]+$/.test(number)) return null;
  return `tel:${number.replace(/[^\d+]+/g, '-').replace(/^-|-$/g, '')}`;
}
