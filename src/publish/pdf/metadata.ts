import { escaped } from '../../draw/xml.js';
import type { Handout } from '../../words/handout.js';

const maker = 'thrice';

/** The document's own description: its title, its maker, and the date of the record where the handout carries one. */
export function openingInfo(handout: Handout): PDFKit.DocumentInfo {
  return {
    Title: handout.title,
    Producer: maker,
    Creator: maker,
    // The printer needs a date to begin with; an undated handout drops it again before it is written.
    CreationDate: new Date(`${handout.dated ?? '1970-01-01'}T00:00:00Z`),
  };
}

/**
 * Writes the metadata packet by hand: pdfkit's own leaves `&` and `<` of the title as they are, which breaks the XML,
 * and always writes a date.
 */
export function describe(doc: PDFKit.PDFDocument, handout: Handout): void {
  if (handout.dated === null) delete doc.info.CreationDate;
  const date =
    handout.dated === null ? '' : `<xmp:CreateDate>${handout.dated}T00:00:00Z</xmp:CreateDate>`;
  const packet = [
    '<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">',
    `<dc:title><rdf:Alt>${titleIn('x-default', handout)}${titleIn(handout.language, handout)}</rdf:Alt></dc:title>`,
    `<dc:language><rdf:Bag><rdf:li>${escaped(handout.language)}</rdf:li></rdf:Bag></dc:language>`,
    `<xmp:CreatorTool>${maker}</xmp:CreatorTool>${date}`,
    `<pdf:Producer>${maker}</pdf:Producer>`,
    '</rdf:Description>',
    // The claim of ISO 14289-1 (PDF/UA-1), 5; the tests hold every document to it.
    '<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">',
    '<pdfuaid:part>1</pdfuaid:part>',
    '</rdf:Description>',
  ].join('\n');
  Object.defineProperty(doc, '_addInfo', { value: () => doc.appendXML(packet) });
}

const titleIn = (language: string, { title }: Handout) =>
  `<rdf:li xml:lang="${escaped(language)}">${escaped(title)}</rdf:li>`;
