import { inks } from '../../draw/inks.js';
import type { FigureBlock } from '../../words/handout.js';
import { printFigure, sizeOf } from './figure.js';
import { mm, textWidthMm } from './page.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { aside, type Tag, tag } from './tags.js';
import { type Passage, printPassage, setPassage, setWithoutWidow } from './text.js';

/** Sender, title and lead line at the head of the first page. */
export function mastheadPiece(press: Press, root: Tag): Piece {
  const { sheet, type, handout, doc } = press;
  const whole = sheet.right - sheet.left;
  // In large type there is no room beside the title: the code comes after the last block.
  const code = handout.largeType ? undefined : handout.code;
  const codeSize = code ? sizeOf(code) : { width: 0, height: 0 };
  const beside = whole - (code ? codeSize.width * mm + 10 : 0);
  // Where one page is short of lines the code begins beside the sender already.
  const wide = press.dense ? beside : whole;
  const [name, ...address] = handout.sender;
  const left = name === undefined ? null : setPassage([{ text: name }], type.sender, wide * 0.52);
  // The address has what the name leaves, so that a telephone number stays on its line.
  const named = Math.max(0, ...(left?.lines.map((line) => line.width) ?? []));
  const room = wide - named - 20;
  const right = address.map((text) => setPassage([{ text }], type.address, room));
  const addressHeight = right.reduce((sum, line) => sum + line.height, 0);
  const sender = left ? Math.max(left.height, addressHeight) + 5 : 0;
  const title = setWithoutWidow([{ text: handout.title }], type.title, beside);
  const lead = setWithoutWidow([{ text: handout.lead }], type.lead, beside * (code ? 1 : 0.92));
  const titled = title.height + 3 + lead.height;
  const underRule = press.dense ? 7 : 10;
  const words = code ? besideTheCode(press, code, { title, lead, titled, beside }) : null;
  const told = Math.max(titled, words ? words.y + words.passage.height : 0) + (press.dense ? 0 : 2);
  // Its light border may reach to the rule above and to the edge of the text.
  const codeTop = press.dense ? -4 : sender + underRule - 4;
  return piece({
    height: Math.max(sender + underRule + told, codeTop + codeSize.height * mm),
    keepsWithNext: true,
    print: ({ x, y }) => {
      if (left) say(press, root, left, x, y);
      let top = y;
      for (const line of right) {
        say(press, root, line, x + wide - line.width, top, 'end');
        top += line.height;
      }
      aside(press, () => {
        doc
          .fillColor(inks.accent)
          .rect(x, y + sender, wide, 2)
          .fill();
      });
      const titleTop = y + sender + underRule;
      const into = { tag: tag(press, root, 'H1'), type: 'H1' };
      printPassage(press, title, { place: { x, y: titleTop }, into });
      say(press, root, lead, x, titleTop + title.height + 3);
      if (!code || !words) return;
      printFigure(press, root, code, { x: x + beside + 10, y: y + codeTop });
      const told = { tag: tag(press, root, 'Caption'), type: 'Caption' };
      const place = { x: x + words.x, y: titleTop + words.y };
      printPassage(press, words.passage, { place, into: told });
    },
  });
}

/** The narrowest place for what is said of the code, and its distance from the title, in points. */
const CAPTION_ROOM = { width: 150, gap: 20 };

/** What is said of the code: between the title and the code where one page is short of lines, else under the title. */
function besideTheCode(
  { type, dense }: Press,
  code: FigureBlock,
  {
    title,
    lead,
    titled,
    beside,
  }: { title: Passage; lead: Passage; titled: number; beside: number },
): Place & { readonly passage: Passage } {
  const ink = Math.max(...[...title.lines, ...lead.lines].map(({ width }) => width));
  const x = ink + CAPTION_ROOM.gap;
  const room = beside - x;
  if (dense && room >= CAPTION_ROOM.width) {
    return { x, y: 2, passage: setPassage(code.caption.runs, type.caption, room) };
  }
  return { x: 0, y: titled + 5, passage: setPassage(code.caption.runs, type.caption, beside) };
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
  const sender = handout.sender[0] ?? '';
  const runs = [{ text: handout.title, strong: true as const }];
  // In large type there is no room for both on one line.
  const share = handout.largeType ? 1 : 0.6;
  const title = setPassage(runs, type.small, whole * share);
  const name = handout.largeType ? null : setPassage([{ text: sender }], type.small, whole * 0.38);
  const rule = top + type.small.leading + 5.5;
  aside(
    press,
    () => {
      printPassage(press, title, { place: { x: sheet.left, y: top }, to: 1 });
      const place = { x: sheet.left + whole * 0.62, y: top };
      if (name) printPassage(press, name, { place, align: 'end', to: 1 });
      doc.lineWidth(0.6).strokeColor(inks.rule);
      doc.moveTo(sheet.left, rule).lineTo(sheet.right, rule).stroke();
    },
    'Pagination',
  );
}

/** Shares of the line: the foot takes as few lines as it can, and `10 / 12` fits in large type. */
const FOOT = { text: 0.86, folio: 0.14 };

const setFoot = ({ type, handout }: Omit<Press, 'sheet' | 'band'>): Passage =>
  setPassage([{ text: handout.foot }], type.small, textWidthMm(handout.paper) * mm * FOOT.text);

/** Points; a foot of several lines grows upwards. */
export const footHeight = (press: Omit<Press, 'sheet' | 'band'>): number => setFoot(press).height;

/** Foot text at the left, `1 / 2` at the right. */
export function printFoot(press: Press, page: number, pages: number): void {
  const { sheet, type, doc } = press;
  const whole = sheet.right - sheet.left;
  // Figures alone need no language.
  const folio = `${page} / ${pages}`;
  const left = setFoot(press);
  const right = setPassage([{ text: folio }], type.small, whole * FOOT.folio);
  aside(
    press,
    () => {
      const top = sheet.foot - left.height;
      doc.lineWidth(0.6).strokeColor(inks.rule);
      doc
        .moveTo(sheet.left, top - 4)
        .lineTo(sheet.right, top - 4)
        .stroke();
      printPassage(press, left, { place: { x: sheet.left, y: top } });
      printPassage(press, right, {
        place: { x: sheet.left + whole * FOOT.text, y: top },
        align: 'end',
      });
    },
    'Pagination',
  );
}
