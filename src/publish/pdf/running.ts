import { inks } from '../../draw/inks.js';
import { type Piece, type Press, piece } from './press.js';
import { aside, type Tag, tag } from './tags.js';
import { type Passage, printPassage, setPassage, setWithoutWidow } from './text.js';

/** Sender, title and lead line at the head of the first page. */
export function mastheadPiece(press: Press, root: Tag): Piece {
  const { sheet, type, handout, doc } = press;
  const whole = sheet.right - sheet.left;
  const [name, ...address] = handout.sender;
  const left =
    name === undefined ? null : setPassage(press, [{ text: name }], type.sender, whole * 0.52);
  // The address has what the name leaves, so that a telephone number stays on its line.
  const named = Math.max(0, ...(left?.lines.map((line) => line.width) ?? []));
  const room = whole - named - 20;
  const right = address.map((text) => setPassage(press, [{ text }], type.address, room));
  const addressHeight = right.reduce((sum, line) => sum + line.height, 0);
  const sender = left ? Math.max(left.height, addressHeight) + 5 : 0;
  const title = setWithoutWidow(press, [{ text: handout.title }], type.title, whole);
  const lead = setWithoutWidow(press, [{ text: handout.lead }], type.lead, whole * 0.92);
  const underRule = 10;
  return piece({
    height: sender + underRule + title.height + 3 + lead.height + 2,
    keepsWithNext: true,
    print: ({ x, y }) => {
      if (left) say(press, root, left, x, y);
      let top = y;
      for (const line of right) {
        say(press, root, line, x + whole - line.width, top, 'end');
        top += line.height;
      }
      aside(press, () => {
        doc
          .fillColor(inks.accent)
          .rect(x, y + sender, whole, 2)
          .fill();
      });
      const titleTop = y + sender + underRule;
      const into = { tag: tag(press, root, 'H1'), type: 'H1' };
      printPassage(press, title, { place: { x, y: titleTop }, into });
      say(press, root, lead, x, titleTop + title.height + 3);
    },
  });
}

function say(
  press: Press,
  root: Tag,
  passage: Passage,
  x: number,
  y: number,
  align: 'start' | 'end' = 'start',
) {
  const into = { tag: tag(press, root, 'P'), type: 'P' };
  printPassage(press, passage, { place: { x, y }, align, into });
}

/** Title and sender at the head of every page but the first. */
export function printRunningHead(press: Press): void {
  const { sheet, handout, type, doc } = press;
  const whole = sheet.right - sheet.left;
  const top = sheet.top.first;
  const title = setPassage(press, [{ text: handout.title, strong: true }], type.small, whole * 0.6);
  const name = setPassage(press, [{ text: handout.sender[0] ?? '' }], type.small, whole * 0.38);
  aside(
    press,
    () => {
      printPassage(press, title, { place: { x: sheet.left, y: top }, to: 1 });
      const place = { x: sheet.left + whole * 0.62, y: top };
      printPassage(press, name, { place, align: 'end', to: 1 });
      doc.lineWidth(0.6).strokeColor(inks.rule);
      doc
        .moveTo(sheet.left, top + 15)
        .lineTo(sheet.right, top + 15)
        .stroke();
    },
    'Pagination',
  );
}

/** Foot text at the left, `1 / 2` at the right. */
export function printFoot(press: Press, page: number, pages: number): void {
  const { sheet, handout, type, doc } = press;
  const whole = sheet.right - sheet.left;
  // Figures alone need no language.
  const folio = `${page} / ${pages}`;
  const left = setPassage(press, [{ text: handout.foot }], type.small, whole * 0.8);
  const right = setPassage(press, [{ text: folio }], type.small, whole * 0.18);
  aside(
    press,
    () => {
      const top = sheet.foot - type.small.leading;
      doc.lineWidth(0.6).strokeColor(inks.rule);
      doc
        .moveTo(sheet.left, top - 4)
        .lineTo(sheet.right, top - 4)
        .stroke();
      printPassage(press, left, { place: { x: sheet.left, y: top } });
      printPassage(press, right, {
        place: { x: sheet.left + whole * 0.82, y: top },
        align: 'end',
      });
    },
    'Pagination',
  );
}
