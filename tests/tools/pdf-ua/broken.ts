import type { Dict, PdfObjects, Value } from './objects.js';
import { allNodes, type Node, structureOf } from './structure.js';

const first = (pdf: PdfObjects, ...types: string[]): Node => {
  const found = allNodes(structureOf(pdf)).find(({ type }) => types.includes(type));
  if (!found) throw new Error(`the file has no ${types.join(' or ')}`);
  return found;
};

function firstPage(pdf: PdfObjects): Dict {
  const page = pdf.pages[0]?.page;
  if (!page) throw new Error('the file has no page');
  return page;
}

/** Edits the content of the first page. */
function content(pdf: PdfObjects, edit: (text: string) => string): void {
  const reference = firstPage(pdf)['/Contents'];
  const text = pdf.stream(reference)?.toString('latin1') ?? '';
  const edited = edit(text);
  if (edited === text) throw new Error('the content is as it was');
  pdf.setStream(reference, Buffer.from(edited, 'latin1'));
}

function packet(pdf: PdfObjects, from: RegExp, to: string): void {
  const text = pdf.stream(pdf.catalog['/Metadata'])?.toString('utf8') ?? '';
  if (!from.test(text)) throw new Error(`the packet holds no ${from}`);
  pdf.setStream(pdf.catalog['/Metadata'], Buffer.from(text.replace(from, to)));
}

const preferences = (pdf: PdfObjects): Dict => pdf.dict(pdf.catalog['/ViewerPreferences']);
const tree = (pdf: PdfObjects): Dict => pdf.dict(pdf.catalog['/StructTreeRoot']);

function font(pdf: PdfObjects): { dict: Dict; descendant: Dict; descriptor: Dict } {
  const fonts = pdf.dict(pdf.dict(firstPage(pdf)['/Resources'])['/Font']);
  const dict = pdf.dict(Object.values(fonts)[0]);
  const descendant = pdf.dict(pdf.list(dict['/DescendantFonts'])[0]);
  return { dict, descendant, descriptor: pdf.dict(descendant['/FontDescriptor']) };
}

/** Lets the map to text lead somewhere else from every character. */
function unicode(pdf: PdfObjects, to: string): void {
  const map = font(pdf).dict['/ToUnicode'];
  const codes = Array.from({ length: 255 }, (_, i) => (i + 1).toString(16).padStart(4, '0'));
  const pairs = codes.map((code) => `<${code}> <${to}>`).join('\n');
  pdf.setStream(map, Buffer.from(`${codes.length} beginbfchar\n${pairs}\nendbfchar`));
}

/** Adds an annotation to the first page. */
function annotation(pdf: PdfObjects, dict: Dict, node?: string): void {
  const page = firstPage(pdf);
  const rect = [10, 10, 20, 20];
  const reference = pdf.add({ '/Type': '/Annot', '/Rect': rect, ...dict });
  page['/Annots'] = [...pdf.list(page['/Annots']), reference];
  if (node) held(pdf, node, { '/Type': '/OBJR', '/Obj': reference });
}

/** Adds a node to the document, with what it holds. */
function held(pdf: PdfObjects, type: string, kid: Value = [], more: Dict = {}): string {
  const root = first(pdf, '/Document');
  const reference = pdf.add({
    '/S': type,
    '/P': root.reference,
    '/K': Array.isArray(kid) ? kid : [kid],
    ...more,
  });
  root.dict['/K'] = [...pdf.list(root.dict['/K']), reference];
  return reference;
}

const link = (pdf: PdfObjects): Dict => {
  const all = pdf.pages.flatMap(({ page }) => pdf.list(page['/Annots']));
  if (all.length === 0) throw new Error('the file has no link');
  return pdf.dict(all[0]);
};

const layers = (pdf: PdfObjects, dict: Dict): void => {
  pdf.catalog['/OCProperties'] = { '/OCGs': [], ...dict };
};

const lock = (pdf: PdfObjects, dict: Dict): void => {
  pdf.trailer['/Encrypt'] = pdf.add(dict);
};

/** For each checkpoint a way to break a sound file, so that it fails that checkpoint. */
export const BREAKS: Readonly<Record<string, (pdf: PdfObjects) => void>> = {
  '01-003': (pdf) =>
    content(pdf, (text) => text.replace(/\/H1 (<<.*?>>) BDC/s, '$& /Artifact BMC EMC')),
  '01-004': (pdf) =>
    content(pdf, (text) => text.replace(/\/H1 (<<.*?>>) BDC/s, '/Artifact BMC $&').concat(' EMC')),
  '01-005': (pdf) => content(pdf, (text) => `${text}\n0 0 m 10 10 l S`),
  '01-007': (pdf) => {
    pdf.dict(pdf.catalog['/MarkInfo'])['/Suspects'] = true;
  },
  '02-001': (pdf) => {
    first(pdf, '/P').dict['/S'] = '/Passage';
  },
  '02-003': (pdf) => {
    tree(pdf)['/RoleMap'] = { '/Passage': '/Text', '/Text': '/Passage' };
  },
  '02-004': (pdf) => {
    tree(pdf)['/RoleMap'] = { '/P': '/Span' };
  },
  '06-001': (pdf) => {
    delete pdf.catalog['/Metadata'];
  },
  '06-002': (pdf) => packet(pdf, /<pdfuaid:part>1<\/pdfuaid:part>/, ''),
  '06-003': (pdf) => packet(pdf, /<dc:title>.*<\/dc:title>/, ''),
  '07-001': (pdf) => {
    delete preferences(pdf)['/DisplayDocTitle'];
  },
  '07-002': (pdf) => {
    preferences(pdf)['/DisplayDocTitle'] = false;
  },
  '09-004': (pdf) => {
    first(pdf, '/TD').dict['/S'] = '/P';
  },
  '09-005': (pdf) => {
    first(pdf, '/LI').dict['/S'] = '/P';
  },
  '09-006': (pdf) => {
    first(pdf, '/Sect').dict['/S'] = '/TOC';
  },
  '09-007': (pdf) => {
    first(pdf, '/P').dict['/S'] = '/Ruby';
  },
  '09-008': (pdf) => {
    first(pdf, '/P').dict['/S'] = '/Warichu';
  },
  '10-001': (pdf) => pdf.setStream(font(pdf).dict['/ToUnicode'], Buffer.from('% empty')),
  '11-001': (pdf) => {
    delete pdf.catalog['/Lang'];
  },
  '11-002': (pdf) => {
    delete pdf.catalog['/Lang'];
  },
  '11-003': (pdf) => {
    delete pdf.catalog['/Lang'];
    pdf.catalog['/Outlines'] = pdf.add({ '/Type': '/Outlines', '/Count': 0 });
  },
  '11-004': (pdf) => {
    delete pdf.catalog['/Lang'];
  },
  '11-006': (pdf) => {
    delete pdf.catalog['/Lang'];
    packet(pdf, /<rdf:li xml:lang="en">.*?<\/rdf:li>/, '');
  },
  '13-004': (pdf) => {
    delete first(pdf, '/Figure').dict['/Alt'];
  },
  '14-002': (pdf) => {
    first(pdf, '/H1').dict['/S'] = '/P';
  },
  '14-003': (pdf) => {
    first(pdf, '/H2').dict['/S'] = '/H3';
  },
  '14-006': (pdf) => {
    held(pdf, '/H');
    held(pdf, '/H');
  },
  '14-007': (pdf) => {
    held(pdf, '/H');
  },
  '15-003': (pdf) => {
    delete first(pdf, '/TH').dict['/A'];
  },
  '17-002': (pdf) => {
    held(pdf, '/Formula');
  },
  '19-003': (pdf) => {
    held(pdf, '/Note');
  },
  '19-004': (pdf) => {
    held(pdf, '/Note', [], { '/ID': 'u:one' });
    held(pdf, '/Note', [], { '/ID': 'u:one' });
  },
  '20-001': (pdf) => layers(pdf, { '/D': { '/Name': 'u:now' }, '/Configs': [{}] }),
  '20-002': (pdf) => layers(pdf, { '/D': {} }),
  '20-003': (pdf) => layers(pdf, { '/D': { '/Name': 'u:now', '/AS': [] } }),
  '21-001': (pdf) => {
    pdf.catalog['/AF'] = [pdf.add({ '/Type': '/Filespec', '/F': 'u:data.csv', '/EF': {} })];
  },
  '25-001': (pdf) => {
    pdf.catalog['/AcroForm'] = { '/Fields': [], '/XFA': 'u:form' };
  },
  '26-001': (pdf) => lock(pdf, { '/Filter': '/Standard' }),
  '26-002': (pdf) => lock(pdf, { '/Filter': '/Standard', '/P': -4 & ~0b10_0000_0000 }),
  '28-002': (pdf) => annotation(pdf, { '/Subtype': '/Text', '/Contents': 'u:note' }),
  '28-004': (pdf) => annotation(pdf, { '/Subtype': '/Text' }, '/Annot'),
  '28-005': (pdf) => annotation(pdf, { '/Subtype': '/Widget' }, '/Form'),
  '28-006': (pdf) => annotation(pdf, { '/Subtype': '/Sticker', '/Contents': 'u:star' }, '/Annot'),
  '28-007': (pdf) => annotation(pdf, { '/Subtype': '/TrapNet', '/Contents': 'u:trap' }, '/Annot'),
  '28-008': (pdf) => {
    annotation(pdf, { '/Subtype': '/Text', '/Contents': 'u:note' }, '/Annot');
    delete firstPage(pdf)['/Tabs'];
  },
  '28-009': (pdf) => {
    annotation(pdf, { '/Subtype': '/Text', '/Contents': 'u:note' }, '/Annot');
    firstPage(pdf)['/Tabs'] = '/R';
  },
  '28-010': (pdf) => annotation(pdf, { '/Subtype': '/Widget', '/TU': 'u:name' }),
  '28-011': (pdf) => {
    first(pdf, '/Link').dict['/S'] = '/Span';
  },
  '28-012': (pdf) => {
    delete link(pdf)['/Contents'];
  },
  '28-017': (pdf) => annotation(pdf, { '/Subtype': '/PrinterMark', '/Contents': 'u:mark' }, '/P'),
  '30-001': (pdf) => {
    const form = pdf.add({ '/Type': '/XObject', '/Subtype': '/Form', '/Ref': {} });
    pdf.dict(firstPage(pdf)['/Resources'])['/XObject'] = { '/Fm1': form };
  },
  '31-001': (pdf) => {
    pdf.dict(font(pdf).descendant['/CIDSystemInfo'])['/Registry'] = 'u:Other';
  },
  '31-004': (pdf) => {
    font(pdf).descendant['/CIDToGIDMap'] = '/Other';
  },
  '31-005': (pdf) => {
    delete font(pdf).descendant['/CIDToGIDMap'];
  },
  '31-006': (pdf) => {
    font(pdf).dict['/Encoding'] = '/Identity-V';
  },
  '31-009': (pdf) => {
    delete font(pdf).descriptor['/FontFile2'];
  },
  '31-011': (pdf) => content(pdf, (text) => text.replace(/\[<[0-9a-f]{4}/, '[<ffff')),
  '31-016': (pdf) => {
    font(pdf).descendant['/W'] = [1, 255, 321];
  },
  '31-027': (pdf) => {
    delete font(pdf).dict['/ToUnicode'];
  },
  '31-028': (pdf) => unicode(pdf, '0000'),
  '31-029': (pdf) => unicode(pdf, 'feff'),
  '31-030': (pdf) => content(pdf, (text) => text.replace(/\[<[0-9a-f]{4}/, '[<0000')),
};
