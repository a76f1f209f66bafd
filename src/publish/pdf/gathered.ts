import { deflateSync } from 'node:zlib';

/** What this asks of pdfkit's inside: the stream of a page, and whether pdfkit packs it. */
interface Page {
  readonly content: {
    readonly data: { Filter?: string };
    compress: boolean;
    write(bytes: Uint8Array): void;
  };
}

/** zlib's level: a fifth of the time of the usual 6 on the thousands of numbers of a figure, for a fifteenth more bytes. */
const LEVEL = 4;

/**
 * Keeps what is written on a page until the page is turned: pdfkit makes bytes of each operator apart, which costs more
 * than the operator.
 * @returns what writes down all that was kept; called before a page is added and before the document ends
 */
export function gatherContent(doc: PDFKit.PDFDocument): () => void {
  const kept: string[] = [];
  doc.addContent = (operators: string) => {
    kept.push(operators);
    return doc;
  };
  return () => {
    if (kept.length === 0) return;
    const { content } = doc.page as unknown as Page;
    content.compress = false;
    content.write(deflateSync(Buffer.from(`${kept.join('\n')}\n`, 'latin1'), { level: LEVEL }));
    content.data.Filter = 'FlateDecode';
    kept.length = 0;
  };
}

/**
 * Keeps the bytes of a document in place of streaming them: pdfkit hands over each line of each object apart.
 * @returns what gives all bytes of a document that has ended
 */
export function gatherBytes(doc: PDFKit.PDFDocument): () => Uint8Array {
  const parts: Uint8Array[] = [doc.read() as Uint8Array];
  let ended = false;
  doc.push = (part: Uint8Array | null) => {
    if (part === null) ended = true;
    else parts.push(part);
    return true;
  };
  return () => {
    if (!ended) throw new Error('pdfkit has not ended its document');
    return new Uint8Array(Buffer.concat(parts));
  };
}
