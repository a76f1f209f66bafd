import type { Annotation, Examined } from './document.js';
import { registryOf } from './fonts.js';
import { textOf } from './objects.js';
import { attributeOf, languageAbove, type Node, STANDARD, standardType } from './structure.js';

/** A condition that a file must not fail. */
export interface Checkpoint {
  /** Number of the failure condition in the Matterhorn Protocol (PDF Association), version 1.1. */
  readonly id: string;
  /** What must be so. */
  readonly asks: string;
  /** Each place at which it is not. */
  readonly broken: (file: Examined) => string[];
}

const when = (broken: boolean, what: string): string[] => (broken ? [what] : []);
const isHeading = (node: Node) => /^\/H[1-6]$/.test(node.type);
const levelOf = (node: Node) => Number(node.type.slice(2));
const fileLanguage = ({ pdf }: Examined) => textOf(pdf.get(pdf.catalog['/Lang'])) || null;
const ofType = ({ nodes }: Examined, ...types: string[]) =>
  nodes.filter(({ type }) => types.includes(type));
const named = (node: Node) => `${node.type} ${node.reference}`;
const everyFont = (file: Examined) =>
  [...file.fonts].map(([reference, font]) => ({
    reference,
    font,
    codes: file.shown.get(reference) ?? new Set<number>(),
  }));
const isSubtype = ({ dict }: Annotation, ...subtypes: string[]) =>
  subtypes.includes(String(dict['/Subtype']));

/** Annotation types of ISO 32000-1, table 169. */
const ANNOTATIONS = new Set(
  'Text Link FreeText Line Square Circle Polygon PolyLine Highlight Underline Squiggly StrikeOut Stamp Caret Ink Popup FileAttachment Sound Movie Widget Screen PrinterMark TrapNet Watermark 3D Redact'
    .split(' ')
    .map((name) => `/${name}`),
);

/** Which nodes may stand in which (ISO 32000-1, tables 336 and 337), for both ways of looking. */
function misplaced(
  file: Examined,
  inside: Record<string, RegExp>,
  under: Record<string, RegExp>,
): string[] {
  return file.nodes.flatMap((node) => {
    const kids = inside[node.type];
    const parent = under[node.type];
    return [
      ...(kids
        ? node.kids
            .filter(({ type }) => !kids.test(type))
            .map((kid) => `${named(kid)} in ${named(node)}`)
        : []),
      ...when(
        parent !== undefined && !parent.test(node.parent?.type ?? ''),
        `${named(node)} in ${node.parent?.type ?? 'nothing'}`,
      ),
      ...when(kids !== undefined && node.content.length > 0, `text in ${named(node)} itself`),
    ];
  });
}

/** The conditions that a program can decide and that this kind of file can fail. */
export const CHECKPOINTS: readonly Checkpoint[] = [
  {
    id: '01-003',
    asks: 'no artifact inside tagged content',
    broken: ({ pages }) =>
      pages.flatMap(({ number, opened }) =>
        opened
          .filter(({ mark, around }) => mark.tag === '/Artifact' && around.some(isTagged))
          .map(() => `page ${number}`),
      ),
  },
  {
    id: '01-004',
    asks: 'no tagged content inside an artifact',
    broken: ({ pages }) =>
      pages.flatMap(({ number, opened }) =>
        opened
          .filter(({ mark, around }) => isTagged(mark) && around.some(isArtifact))
          .map(() => `page ${number}`),
      ),
  },
  {
    id: '01-005',
    asks: 'all that is painted is tagged or an artifact, and every tag belongs to the tree',
    broken: ({ pdf, pages, nodes, parentTree }) => {
      const held = new Map(nodes.flatMap((node) => node.content.map((key) => [key, node])));
      return pages.flatMap(({ number, reference, page, painted, opened }) => {
        const parents = pdf.list(parentTree.get(page['/StructParents'] as number));
        const unmarked = painted.filter(
          ({ marks }) => !marks.some((mark) => isTagged(mark) || isArtifact(mark)),
        );
        const lost = opened.filter(({ mark }) => {
          if (mark.mcid === null) return false;
          const node = held.get(`${reference}#${mark.mcid}`);
          return !node || parents[mark.mcid] !== node.reference;
        });
        const forms = Object.values(pdf.dict(pdf.dict(page['/Resources'])['/XObject'])).filter(
          (one) => pdf.dict(one)['/Subtype'] === '/Form',
        );
        return [
          ...unmarked.map(({ operation }) => `page ${number}: ${operation.operator}`),
          ...lost.map(({ mark }) => `page ${number}: ${mark.tag} ${mark.mcid} is in no tree`),
          // Their content is not read here.
          ...forms.map(() => `page ${number}: a form XObject`),
        ];
      });
    },
  },
  {
    id: '01-007',
    asks: 'no suspects',
    broken: ({ pdf }) => when(pdf.dict(pdf.catalog['/MarkInfo'])['/Suspects'] === true, 'Suspects'),
  },
  {
    id: '02-001',
    asks: 'every type ends at a standard type',
    broken: (file) =>
      file.nodes
        .filter(({ dict }) => {
          const type = standardType(file.pdf, String(dict['/S']));
          return type !== null && !STANDARD.has(type);
        })
        .map(named),
  },
  {
    id: '02-003',
    asks: 'no role map goes round in a circle',
    broken: ({ pdf }) =>
      Object.keys(pdf.dict(pdf.dict(pdf.catalog['/StructTreeRoot'])['/RoleMap'])).filter(
        (type) => standardType(pdf, type) === null,
      ),
  },
  {
    id: '02-004',
    asks: 'no standard type is mapped to another',
    broken: ({ pdf }) =>
      Object.keys(pdf.dict(pdf.dict(pdf.catalog['/StructTreeRoot'])['/RoleMap'])).filter((type) =>
        STANDARD.has(type),
      ),
  },
  {
    id: '06-001',
    asks: 'a metadata packet',
    broken: ({ xmp }) => when(xmp === null, 'no XMP'),
  },
  {
    id: '06-002',
    asks: 'the packet says PDF/UA-1',
    broken: ({ xmp }) =>
      when(
        !/xmlns:pdfuaid="http:\/\/www\.aiim\.org\/pdfua\/ns\/id\/"[\s\S]*<pdfuaid:part>1<\/pdfuaid:part>/.test(
          xmp ?? '',
        ),
        'no pdfuaid:part 1',
      ),
  },
  {
    id: '06-003',
    asks: 'the packet has the title',
    broken: ({ xmp }) =>
      when(
        !/<dc:title><rdf:Alt><rdf:li [^>]*>[^<]+<\/rdf:li>/.test(xmp ?? ''),
        'no title in the packet',
      ),
  },
  {
    id: '07-001',
    asks: 'the title bar has an order',
    broken: ({ pdf }) =>
      when(
        pdf.dict(pdf.catalog['/ViewerPreferences'])['/DisplayDocTitle'] === undefined,
        'no DisplayDocTitle',
      ),
  },
  {
    id: '07-002',
    asks: 'the title bar shows the title, not the file name',
    broken: ({ pdf }) =>
      when(
        pdf.dict(pdf.catalog['/ViewerPreferences'])['/DisplayDocTitle'] === false,
        'DisplayDocTitle is false',
      ),
  },
  {
    id: '09-004',
    asks: 'tables are made of rows, rows of cells',
    broken: (file) => [
      ...misplaced(
        file,
        {
          '/Table': /^\/(TR|THead|TBody|TFoot|Caption)$/,
          '/THead': /^\/TR$/,
          '/TBody': /^\/TR$/,
          '/TFoot': /^\/TR$/,
          '/TR': /^\/(TH|TD)$/,
        },
        {
          '/TR': /^\/(Table|THead|TBody|TFoot)$/,
          '/TH': /^\/TR$/,
          '/TD': /^\/TR$/,
          '/THead': /^\/Table$/,
          '/TBody': /^\/Table$/,
          '/TFoot': /^\/Table$/,
        },
      ),
      ...ofType(file, '/Table').flatMap((table) => {
        const wide = new Set(
          table.kids.filter(({ type }) => type === '/TR').map(({ kids }) => kids.length),
        );
        const at = table.kids.findIndex(({ type }) => type === '/Caption');
        return [
          ...when(wide.size !== 1, `${named(table)} has rows of ${[...wide].join(' and ')} cells`),
          ...when(at > 0 && at < table.kids.length - 1, `the caption in the midst of a table`),
        ];
      }),
    ],
  },
  {
    id: '09-005',
    asks: 'lists are made of items, items of a label and a body',
    broken: (file) =>
      misplaced(
        file,
        { '/L': /^\/(LI|Caption)$/, '/LI': /^\/(Lbl|LBody)$/ },
        { '/LI': /^\/L$/, '/LBody': /^\/LI$/, '/Lbl': /^\/LI$/ },
      ),
  },
  ...(
    [
      ['09-006', 'tables of contents', /^\/TOCI?$/],
      ['09-007', 'ruby', /^\/(Ruby|RB|RT|RP)$/],
      ['09-008', 'warichu', /^\/(Warichu|WT|WP)$/],
    ] as const
  ).map(
    ([id, what, types]): Checkpoint => ({
      id,
      // Their rules are not written here, so they must not occur.
      asks: `no ${what}, of which these documents have none`,
      broken: ({ nodes }) => nodes.filter(({ type }) => types.test(type)).map(named),
    }),
  ),
  {
    id: '10-001',
    asks: 'every character shown has its text',
    broken: (file) =>
      everyFont(file).flatMap(({ reference, font, codes }) =>
        [...codes]
          .filter((code) => !font.toUnicode?.get(code))
          .map((code) => `code ${code} of font ${reference}`),
      ),
  },
  {
    id: '11-001',
    asks: 'the language of the text is known',
    broken: (file) =>
      fileLanguage(file) === null
        ? file.nodes.filter((node) => node.content.length > 0 && !languageAbove(node)).map(named)
        : [],
  },
  {
    id: '11-002',
    asks: 'the language of alternative texts is known',
    broken: (file) =>
      fileLanguage(file) === null
        ? file.nodes
            .filter(
              (node) =>
                ['/Alt', '/ActualText', '/E'].some((key) => node.dict[key] !== undefined) &&
                !languageAbove(node),
            )
            .map(named)
        : [],
  },
  {
    id: '11-003',
    asks: 'the language of bookmarks is known',
    broken: (file) =>
      when(
        file.pdf.catalog['/Outlines'] !== undefined && fileLanguage(file) === null,
        'bookmarks without a language',
      ),
  },
  {
    id: '11-004',
    asks: 'the language of what links say is known',
    broken: (file) =>
      fileLanguage(file) === null
        ? file.annotations
            .filter(({ dict, node }) => dict['/Contents'] !== undefined && !languageAbove(node))
            .map(({ reference }) => `annotation ${reference}`)
        : [],
  },
  {
    id: '11-006',
    asks: 'the language of the metadata is known',
    broken: (file) => {
      const spoken = [...(file.xmp ?? '').matchAll(/xml:lang="([^"]+)"/g)].map(([, tag]) => tag);
      return when(
        fileLanguage(file) === null && !spoken.some((tag) => tag !== 'x-default'),
        'metadata without a language',
      );
    },
  },
  {
    id: '13-004',
    asks: 'every figure is told in words',
    broken: (file) =>
      ofType(file, '/Figure')
        .filter(({ dict }) => !textOf(dict['/Alt']) && !textOf(dict['/ActualText']))
        .map(named),
  },
  {
    id: '14-002',
    asks: 'the first heading is of the first level',
    broken: ({ nodes }) => {
      const first = nodes.find(isHeading);
      return when(first !== undefined && first.type !== '/H1', first ? named(first) : '');
    },
  },
  {
    id: '14-003',
    asks: 'no level of headings is skipped',
    broken: ({ nodes }) =>
      nodes
        .filter(isHeading)
        .filter((node, i, all) => i > 0 && levelOf(node) > levelOf(all[i - 1] as Node) + 1)
        .map(named),
  },
  {
    id: '14-006',
    asks: 'no node has two headings without a level',
    broken: ({ nodes }) =>
      nodes.filter(({ kids }) => kids.filter(({ type }) => type === '/H').length > 1).map(named),
  },
  {
    id: '14-007',
    asks: 'headings have levels everywhere or nowhere',
    broken: (file) =>
      when(
        ofType(file, '/H').length > 0 && file.nodes.some(isHeading),
        'headings with and without level',
      ),
  },
  {
    id: '15-003',
    asks: 'every head of a table says what it is the head of',
    broken: (file) =>
      ofType(file, '/TH')
        .filter(
          (node) =>
            !['/Row', '/Column', '/Both'].includes(String(attributeOf(file.pdf, node, '/Scope'))) &&
            attributeOf(file.pdf, node, '/Headers') === null,
        )
        .map(named),
  },
  {
    id: '17-002',
    asks: 'every formula is told in words',
    broken: (file) =>
      ofType(file, '/Formula')
        .filter(({ dict }) => !textOf(dict['/Alt']))
        .map(named),
  },
  {
    id: '19-003',
    asks: 'every note has a name',
    broken: (file) =>
      ofType(file, '/Note')
        .filter(({ dict }) => !textOf(dict['/ID']))
        .map(named),
  },
  {
    id: '19-004',
    asks: 'no two notes have one name',
    broken: (file) => {
      const names = ofType(file, '/Note').map(({ dict }) => textOf(dict['/ID']));
      return names
        .filter((name, i) => name !== null && names.indexOf(name) < i)
        .map((name) => `note ${name}`);
    },
  },
  {
    id: '20-001',
    asks: 'every configuration of layers has a name',
    broken: ({ pdf }) =>
      pdf
        .list(pdf.dict(pdf.catalog['/OCProperties'])['/Configs'])
        .filter((one) => !textOf(pdf.dict(one)['/Name']))
        .map(() => 'a configuration'),
  },
  {
    id: '20-002',
    asks: 'the configuration of layers in force has a name',
    broken: ({ pdf }) => {
      const layers = pdf.catalog['/OCProperties'];
      return when(
        layers !== undefined && !textOf(pdf.dict(pdf.dict(layers)['/D'])['/Name']),
        'the configuration in force',
      );
    },
  },
  {
    id: '20-003',
    asks: 'no layer shows itself by its own rules',
    broken: ({ pdf }) => {
      const layers = pdf.dict(pdf.catalog['/OCProperties']);
      return [layers['/D'] ?? null, ...pdf.list(layers['/Configs'])]
        .filter((one) => pdf.dict(one)['/AS'] !== undefined)
        .map(() => 'a configuration');
    },
  },
  {
    id: '21-001',
    asks: 'every attached file has its names',
    broken: ({ pdf }) =>
      pdf.entries
        .map(([reference]) => ({ reference, dict: pdf.dict(reference) }))
        .filter(
          ({ dict }) => dict['/EF'] !== undefined && !(textOf(dict['/F']) && textOf(dict['/UF'])),
        )
        .map(({ reference }) => `file ${reference}`),
  },
  {
    id: '25-001',
    asks: 'no form that draws itself',
    broken: ({ pdf }) =>
      when(
        pdf.dict(pdf.catalog['/AcroForm'])['/XFA'] !== undefined,
        'an XFA form, which is not looked into',
      ),
  },
  {
    id: '26-001',
    asks: 'a locked file says what is allowed',
    broken: ({ pdf }) => {
      const lock = pdf.trailer['/Encrypt'];
      return when(lock !== undefined && pdf.dict(lock)['/P'] === undefined, 'no permissions');
    },
  },
  {
    id: '26-002',
    asks: 'a locked file lets reading programs in',
    broken: ({ pdf }) => {
      const lock = pdf.trailer['/Encrypt'];
      const allowed = Number(pdf.dict(lock)['/P'] ?? 0);
      return when(lock !== undefined && (allowed & 0b10_0000_0000) === 0, 'bit 10 is not set');
    },
  },
  {
    id: '28-002',
    asks: 'annotations of other kinds stand in a node for annotations',
    broken: ({ annotations }) =>
      annotations
        .filter((one) => !isSubtype(one, '/Widget', '/Link', '/PrinterMark'))
        .filter(({ node }) => node?.type !== '/Annot')
        .map(({ reference }) => `annotation ${reference}`),
  },
  {
    id: '28-004',
    asks: 'every annotation is told in words',
    broken: ({ annotations }) =>
      annotations
        .filter((one) => !isSubtype(one, '/Widget'))
        .filter(({ dict, node }) => !textOf(dict['/Contents']) && !textOf(node?.dict['/Alt']))
        .map(({ reference }) => `annotation ${reference}`),
  },
  {
    id: '28-005',
    asks: 'every field of a form is told in words',
    broken: ({ annotations }) =>
      annotations
        .filter((one) => isSubtype(one, '/Widget'))
        .filter(({ dict, node }) => !textOf(dict['/TU']) && !textOf(node?.dict['/Alt']))
        .map(({ reference }) => `field ${reference}`),
  },
  {
    id: '28-006',
    asks: 'no annotation of an unknown kind',
    broken: ({ annotations }) =>
      annotations
        .filter(({ dict }) => !ANNOTATIONS.has(String(dict['/Subtype'])))
        .map(({ reference }) => `annotation ${reference}`),
  },
  {
    id: '28-007',
    asks: 'no trap network',
    broken: ({ annotations }) =>
      annotations
        .filter((one) => isSubtype(one, '/TrapNet'))
        .map(({ reference }) => `annotation ${reference}`),
  },
  {
    id: '28-008',
    asks: 'every page with an annotation has an order of tabs',
    broken: ({ pages }) =>
      pages
        .filter(({ page }) => page['/Annots'] !== undefined && page['/Tabs'] === undefined)
        .map(({ number }) => `page ${number}`),
  },
  {
    id: '28-009',
    asks: 'tabs go by the structure',
    broken: ({ pages }) =>
      pages
        .filter(
          ({ page }) =>
            page['/Annots'] !== undefined && ![undefined, '/S'].includes(page['/Tabs'] as string),
        )
        .map(({ number }) => `page ${number}`),
  },
  {
    id: '28-010',
    asks: 'every field stands in a node for fields',
    broken: ({ annotations }) =>
      annotations
        .filter((one) => isSubtype(one, '/Widget') && one.node?.type !== '/Form')
        .map(({ reference }) => `field ${reference}`),
  },
  {
    id: '28-011',
    asks: 'every link stands in a node for links, and leads back to it',
    broken: ({ pdf, annotations, parentTree }) =>
      annotations
        .filter((one) => isSubtype(one, '/Link'))
        .filter(({ dict, node }) => {
          const parent = parentTree.get(pdf.get(dict['/StructParent']) as number);
          return node?.type !== '/Link' || parent !== node.reference;
        })
        .map(({ reference }) => `link ${reference}`),
  },
  {
    id: '28-012',
    asks: 'every link says where it leads',
    broken: ({ annotations }) =>
      annotations
        .filter((one) => isSubtype(one, '/Link') && !textOf(one.dict['/Contents']))
        .map(({ reference }) => `link ${reference}`),
  },
  {
    id: '28-017',
    asks: 'no printer mark is read aloud',
    broken: ({ annotations }) =>
      annotations
        .filter((one) => isSubtype(one, '/PrinterMark') && one.node !== null)
        .map(({ reference }) => `mark ${reference}`),
  },
  {
    id: '30-001',
    asks: 'no content taken from another file',
    broken: ({ pdf }) =>
      pdf.entries
        .filter(([reference]) => {
          const dict = pdf.dict(reference);
          return dict['/Subtype'] === '/Form' && dict['/Ref'] !== undefined;
        })
        .map(([reference]) => `XObject ${reference}`),
  },
  {
    id: '31-001',
    asks: 'no character set but the plain one, which cannot differ from its map',
    broken: (file) =>
      everyFont(file)
        .filter(({ font }) => registryOf(file.pdf, font).join() !== 'Adobe,Identity')
        .map(({ reference }) => `font ${reference}`),
  },
  {
    id: '31-004',
    asks: 'codes lead to glyphs by a map or one to one',
    broken: (file) =>
      everyFont(file)
        .filter(({ font }) => {
          const map = font.descendant['/CIDToGIDMap'];
          return map !== undefined && map !== '/Identity' && file.pdf.stream(map) === null;
        })
        .map(({ reference }) => `font ${reference}`),
  },
  {
    id: '31-005',
    asks: 'the way from code to glyph is stated',
    broken: (file) =>
      everyFont(file)
        .filter(({ font }) => font.descendant['/CIDToGIDMap'] === undefined)
        .map(({ reference }) => `font ${reference}`),
  },
  {
    id: '31-006',
    asks: 'codes are read as the plain map reads them',
    broken: (file) =>
      everyFont(file)
        .filter(({ font }) => font.dict['/Encoding'] !== '/Identity-H')
        .map(({ reference }) => `font ${reference}`),
  },
  {
    id: '31-009',
    asks: 'every font is in the file',
    broken: (file) =>
      everyFont(file)
        .filter(({ font }) => font.program === null)
        .map(({ reference }) => `font ${reference}`),
  },
  {
    id: '31-011',
    asks: 'every glyph shown is in its font',
    broken: (file) =>
      everyFont(file).flatMap(({ reference, font, codes }) =>
        [...codes]
          .filter((code) => font.program !== null && code >= font.program.glyphs)
          .map((code) => `glyph ${code} of font ${reference}`),
      ),
  },
  {
    id: '31-016',
    asks: 'every glyph is as wide as the file says',
    broken: (file) =>
      everyFont(file).flatMap(({ reference, font, codes }) =>
        [...codes]
          .filter(
            (code) =>
              font.program !== null && Math.abs(font.program.advance(code) - font.width(code)) > 1,
          )
          .map((code) => `glyph ${code} of font ${reference}`),
      ),
  },
  {
    id: '31-027',
    asks: 'every font has a map to text',
    broken: (file) =>
      everyFont(file)
        .filter(({ font }) => font.toUnicode === null)
        .map(({ reference }) => `font ${reference}`),
  },
  {
    id: '31-028',
    asks: 'no map leads to U+0000',
    broken: (file) => mapsTo(file, ['\u0000']),
  },
  {
    id: '31-029',
    asks: 'no map leads to U+FEFF or U+FFFE',
    broken: (file) => mapsTo(file, ['\ufeff', '\ufffe']),
  },
  {
    id: '31-030',
    asks: 'no empty box in place of a character',
    broken: (file) =>
      everyFont(file).flatMap(({ reference, codes }) => when(codes.has(0), `font ${reference}`)),
  },
];

const isTagged = ({ mcid }: { mcid: number | null }) => mcid !== null;
const isArtifact = ({ tag }: { tag: string }) => tag === '/Artifact';

const mapsTo = (file: Examined, unwanted: readonly string[]): string[] =>
  everyFont(file).flatMap(({ reference, font, codes }) =>
    [...codes]
      .filter((code) => unwanted.some((one) => font.toUnicode?.get(code)?.includes(one)))
      .map((code) => `code ${code} of font ${reference}`),
  );

/** The checkpoints that a file fails, each with the places; empty where it passes all. */
export function failuresOf(file: Examined): Record<string, string[]> {
  return Object.fromEntries(
    CHECKPOINTS.map(({ id, broken }) => [id, broken(file)] as const).filter(
      ([, places]) => places.length > 0,
    ),
  );
}
