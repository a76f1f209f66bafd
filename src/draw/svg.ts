import type { Drawing, Mark, Part, Point, Stroke } from './drawing.js';
import { family } from './inks.js';
import { escaped } from './xml.js';

/** Writes a drawing as SVG at true scale: sizes in mm, one user unit = 1 mm, numbers to a micrometre. */
export function toSvg(
  drawing: Drawing,
  words: { readonly title: string; readonly description: string },
): string {
  const width = short(drawing.width);
  const height = short(drawing.height);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" role="img" fill="none" stroke-linejoin="round" font-family="${family}, sans-serif">`,
    `<title>${escaped(words.title)}</title>`,
    `<desc>${escaped(words.description)}</desc>`,
    ...drawing.marks.map(element),
    '</svg>',
    '',
  ].join('\n');
}

function element(mark: Mark): string {
  switch (mark.kind) {
    case 'line':
      return `<path${named(mark.part)} d="${path(mark.points)}"${stroked(mark.stroke)}/>`;
    case 'area':
      return `<path${named(mark.part)} d="${path(mark.points)}Z"${filled(mark.fill)}${stroked(mark.stroke)}/>`;
    case 'circle': {
      const [x, y] = mark.centre;
      return `<circle${named(mark.part)} cx="${short(x)}" cy="${short(y)}" r="${short(mark.radius)}"${filled(mark.fill)}${stroked(mark.stroke)}/>`;
    }
    case 'text': {
      const [x, y] = mark.at;
      const weight = mark.weight === 'bold' ? ' font-weight="700"' : '';
      const anchor = mark.align === 'start' ? '' : ` text-anchor="${mark.align}"`;
      return `<text${named(mark.part)} x="${short(x)}" y="${short(y)}" font-size="${short(mark.size)}"${weight}${anchor} fill="${escaped(mark.colour)}">${escaped(mark.text)}</text>`;
    }
  }
}

function named(part: Part | undefined): string {
  if (!part) return '';
  const turn = part.turn === undefined ? '' : ` data-turn="${short(part.turn)}"`;
  return ` data-part="${escaped(part.name)}"${turn}`;
}

/** The drawing as a whole has none, as most of its marks. */
const filled = (colour: string | undefined): string =>
  colour === undefined ? '' : ` fill="${escaped(colour)}"`;

function stroked(stroke: Stroke | undefined): string {
  if (!stroke) return '';
  const dash = stroke.dash ? ` stroke-dasharray="${stroke.dash.map(short).join(' ')}"` : '';
  return ` stroke="${escaped(stroke.colour)}" stroke-width="${short(stroke.width)}"${dash}`;
}

/** From point to point by how far it is: half of what the places themselves would take. Each place is still right to a micrometre, as whole micrometres are told apart. */
function path(points: readonly Point[]): string {
  let lastX = 0;
  let lastY = 0;
  let written = '';
  for (let i = 0; i < points.length; i++) {
    const point = points[i] as Point;
    const x = micrometres(point[0]);
    const y = micrometres(point[1]);
    if (i === 0) written += `M${told(x)}`;
    else written += i === 1 ? `l${told(x - lastX)}` : beside(x - lastX);
    written += beside(y - lastY);
    lastX = x;
    lastY = y;
  }
  return written;
}

function micrometres(value: number): number {
  if (!Number.isFinite(value))
    throw new Error(`a drawing holds ${value} where a length in mm goes`);
  return Math.round(value * 1000);
}

/** After another number: a minus parts the two as well as a space. */
const beside = (micrometres: number): string =>
  micrometres < 0 ? told(micrometres) : ` ${told(micrometres)}`;

/** Thousandths as they stand after the point, the point included; nothing for none. */
const THOUSANDTHS = Array.from({ length: 1000 }, (_, count) =>
  count === 0 ? '' : `.${String(count).padStart(3, '0').replace(/0+$/, '')}`,
);

/**
 * Whole micrometres in mm, without a zero before the point. Put together from whole numbers: a page has tens of
 * thousands of them, and a fraction is made text at several times the cost.
 */
function told(micrometres: number): string {
  if (micrometres < 0) return `-${told(-micrometres)}`;
  const whole = Math.floor(micrometres / 1000);
  const rest = THOUSANDTHS[micrometres - 1000 * whole] as string;
  return whole === 0 && rest !== '' ? rest : `${whole}${rest}`;
}

const short = (value: number): string => String(micrometres(value) / 1000 || 0);
