/** What pdfkit's types do not tell of a page. */
interface Page {
  write(content: string): void;
}

/**
 * Keeps what is written on a page until the page is turned: pdfkit makes bytes of each operator apart, and that costs more
 * than the operator. The bytes of the file stay the same.
 * @returns what writes down all that was kept; called before a page is added and before the document ends
 */
export function gatherContent(doc: PDFKit.PDFDocument): () => void {
  const kept: string[] = [];
  doc.addContent = (operators: string) => {
    kept.push(operators);
    return doc;
  };
  return () => {
    if (kept.length > 0) (doc.page as unknown as Page).write(kept.join('\n'));
    kept.length = 0;
  };
}
