import type { Mark, Point, Stroke } from '../draw/drawing.js';
import { family } from '../draw/inks.js';
import { rectangle } from '../draw/lettering.js';
import { demandGlyphs } from './fonts.js';
import { advanceOf } from './pdf/typefaces.js';

/** CSS pixels in a millimetre. */
export const CSS_PIXELS_PER_MM = 96 / 25.4;

/** What `save` keeps; lengths in CSS px. */
interface State {
  fillStyle: string;
  strokeStyle: string;
  lineWidth: number;
  font: string;
  textAlign: keyof typeof ALIGN;
  textBaseline: string;
  dash: readonly number[];
  origin: Point;
}

type Path =
  | { readonly kind: 'polyline'; readonly points: Point[]; closed: boolean }
  | { readonly kind: 'circle'; readonly centre: Point; readonly radius: number };

/** From the line that a text is placed by down to its letters' own line, in sizes; ascent 0.984 and descent 0.316 are the face's. */
const BELOW: Readonly<Record<string, number>> = {
  alphabetic: 0,
  top: 0.984,
  middle: (0.984 - 0.316) / 2,
  bottom: -0.316,
};

const ALIGN = {
  start: 'start',
  left: 'start',
  center: 'middle',
  end: 'end',
  right: 'end',
} as const;

/**
 * The part of a canvas that the chart library draws with, kept as marks of a drawing in place of dots: sharp at every size,
 * and at a tenth of the cost. What is asked of it beyond that stops the build rather than be left out.
 */
export class RecordedCanvas implements State {
  fillStyle = '#000000';
  strokeStyle = '#000000';
  lineWidth = 1;
  font = '';
  textAlign: keyof typeof ALIGN = 'start';
  textBaseline: string = 'alphabetic';
  dash: readonly number[] = [];
  origin: Point = [0, 0];
  private marks: Mark[] = [];
  private paths: Path[] = [];
  /** Where the marks of the last fill begin, while its path is still at hand. */
  private filled: number | null = null;
  private readonly saved: State[] = [];

  /**
   * @param width in CSS px, as `height`
   * @param done takes the marks of a picture that is finished
   */
  constructor(
    public width: number,
    public height: number,
    private readonly done: (marks: readonly Mark[]) => void = () => {},
  ) {}

  readonly canvas = this;
  getContext = (): this => this;

  /** All that was drawn, in mm. */
  drawn(): readonly Mark[] {
    return this.marks;
  }

  /** Where the library would take its dots, the marks are handed over: what follows wipes the canvas. */
  toBuffer(): Buffer {
    this.done(this.marks);
    return Buffer.alloc(0);
  }

  save(): void {
    const { fillStyle, strokeStyle, lineWidth, font, textAlign, textBaseline, dash, origin } = this;
    this.saved.push({
      fillStyle,
      strokeStyle,
      lineWidth,
      font,
      textAlign,
      textBaseline,
      dash,
      origin,
    });
  }

  restore(): void {
    Object.assign(this, this.saved.pop());
  }

  /** The library scales by the density of the dots, which a drawing has none of. */
  setTransform(): void {
    this.origin = [0, 0];
  }

  resetTransform(): void {
    this.origin = [0, 0];
  }

  translate(x: number, y: number): void {
    this.origin = [this.origin[0] + x, this.origin[1] + y];
  }

  rotate(angle: number): void {
    if (angle !== 0) throw new Error('a recorded chart turns nothing');
  }

  clearRect(): void {
    this.marks = [];
  }

  /** The axes of the charts hold everything that is drawn within them. */
  clip(): void {}

  setLineDash(lengths: readonly number[]): void {
    this.dash = [...lengths];
  }

  beginPath(): void {
    this.paths = [];
    this.filled = null;
  }

  moveTo(x: number, y: number): void {
    this.paths.push({ kind: 'polyline', points: [this.at(x, y)], closed: false });
  }

  lineTo(x: number, y: number): void {
    const path = this.paths.at(-1);
    if (path?.kind === 'polyline' && !path.closed) path.points.push(this.at(x, y));
    else this.moveTo(x, y);
  }

  closePath(): void {
    const path = this.paths.at(-1);
    if (path?.kind === 'polyline') path.closed = true;
  }

  rect(x: number, y: number, width: number, height: number): void {
    const points = rectangle(x, y, width, height).map(([left, top]) => this.at(left, top));
    this.paths.push({ kind: 'polyline', points, closed: true });
  }

  arc(x: number, y: number, radius: number, from: number, to: number): void {
    if (to - from < 2 * Math.PI) throw new Error('a recorded chart has whole circles alone');
    this.paths.push({ kind: 'circle', centre: this.at(x, y), radius: mm(radius) });
  }

  fill(): void {
    this.filled = this.marks.length;
    for (const path of this.paths) {
      if (path.kind === 'circle') {
        const { centre, radius } = path;
        this.marks.push({ kind: 'circle', centre, radius, fill: this.fillStyle });
      } else this.marks.push({ kind: 'area', points: path.points, fill: this.fillStyle });
    }
  }

  stroke(): void {
    const stroke = this.pen();
    this.paths.forEach((path, i) => {
      // A path that has just been filled is one mark with its outline.
      const filled = this.filled === null ? undefined : this.marks[this.filled + i];
      const closed = path.kind === 'circle' || path.closed;
      if (filled && filled.kind !== 'text' && closed) {
        this.marks[(this.filled ?? 0) + i] = { ...filled, stroke };
      } else if (path.kind === 'circle') {
        this.marks.push({ kind: 'circle', centre: path.centre, radius: path.radius, stroke });
      } else {
        const [first] = path.points;
        const points = path.closed && first ? [...path.points, first] : path.points;
        if (points.length > 1) this.marks.push({ kind: 'line', points, stroke });
      }
    });
    this.filled = null;
  }

  fillRect(x: number, y: number, width: number, height: number): void {
    this.beginPath();
    this.rect(x, y, width, height);
    this.fill();
    this.beginPath();
  }

  strokeRect(x: number, y: number, width: number, height: number): void {
    this.beginPath();
    this.rect(x, y, width, height);
    this.stroke();
  }

  measureText(text: string): { readonly width: number } {
    const { weight, size } = this.letters();
    return { width: (advanceOf(weight, text, false) * size) / 1000 };
  }

  fillText(text: string, x: number, y: number): void {
    const { weight, size } = this.letters();
    demandGlyphs(weight, text);
    const below = BELOW[this.textBaseline];
    if (below === undefined) throw new Error(`${text} is placed by its ${this.textBaseline}`);
    this.marks.push({
      kind: 'text',
      at: this.at(x, y + below * size),
      text,
      size: mm(size),
      weight,
      align: ALIGN[this.textAlign],
      colour: this.fillStyle,
    });
  }

  private at(x: number, y: number): Point {
    return [mm(this.origin[0] + x), mm(this.origin[1] + y)];
  }

  private pen(): Stroke {
    return {
      colour: this.strokeStyle,
      width: mm(this.lineWidth),
      ...(this.dash.length > 0 && { dash: this.dash.map(mm) }),
    };
  }

  private letters(): { readonly weight: 'regular' | 'bold'; readonly size: number } {
    const size = /([\d.]+)px/.exec(this.font)?.[1];
    if (!size || !this.font.includes(family)) throw new Error(`a chart is set in "${this.font}"`);
    return { weight: /\b(bold|700)\b/.test(this.font) ? 'bold' : 'regular', size: Number(size) };
  }
}

const mm = (pixels: number): number => pixels / CSS_PIXELS_PER_MM;
