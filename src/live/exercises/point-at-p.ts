import type { FindTheP } from '../../facts/exercises.js';
import type { NumberedPiece } from '../contract.js';
import type { Saying } from '../saying.js';

const SVG = 'http://www.w3.org/2000/svg';

/**
 * Lets a reader put a mark on the strip where the P of a beat is, by pointer or finger. A mark answers for its beat that a
 * P is there, and where; the choices below the strip say the same without a pointer.
 */
export function pointAtP(
  form: HTMLFormElement,
  { beats, from }: FindTheP,
  paper: NumberedPiece,
  say: Saying,
): void {
  const svg = form.closest('.exercise')?.querySelector<SVGSVGElement>('figure svg');
  if (!svg) return;
  svg.classList.add('pointed');
  form.before(hint(say('exercises.beat.point')));
  const marks = beats.map((_, index) => new PlacedMark(form, svg, index));
  svg.addEventListener('click', (event) => {
    const x = mmAcross(svg, event.clientX);
    const time = from + (x - paper.left) / paper.second;
    // The P of a beat stands before it.
    const index = beats.findIndex((beat) => time > from && time <= beat.time);
    marks[index]?.put(x, time);
    choiceOf(form, index, 'there')?.click();
  });
  form.addEventListener('change', () => {
    marks.forEach((mark, index) => {
      if (!choiceOf(form, index, 'there')?.checked) mark.take();
    });
  });
}

const choiceOf = (form: HTMLFormElement, index: number, value: string) =>
  form.querySelector<HTMLInputElement>(`input[name="beat-${index}"][value="${value}"]`);

function hint(words: string): HTMLElement {
  const line = document.createElement('p');
  line.className = 'hint';
  line.textContent = words;
  return line;
}

/** mm of the drawing, which may be shown in any size. */
function mmAcross(svg: SVGSVGElement, clientX: number): number {
  const { left, width } = svg.getBoundingClientRect();
  return ((clientX - left) / width) * svg.viewBox.baseVal.width;
}

/** The mark of one beat: a line on the strip, and its time in a field of the form. */
class PlacedMark {
  readonly #field = document.createElement('input');
  readonly #line = document.createElementNS(SVG, 'line');
  readonly #svg: SVGSVGElement;

  constructor(form: HTMLFormElement, svg: SVGSVGElement, index: number) {
    this.#svg = svg;
    this.#field.type = 'hidden';
    this.#field.name = `mark-${index}`;
    form.append(this.#field);
    this.#line.classList.add('put-mark');
  }

  put(x: number, time: number): void {
    this.#field.value = time.toFixed(3);
    const { height } = this.#svg.viewBox.baseVal;
    const ends = { x1: x, x2: x, y1: MARK.top, y2: height - MARK.bottom };
    for (const [name, value] of Object.entries(ends)) this.#line.setAttribute(name, `${value}`);
    this.#svg.append(this.#line);
  }

  take(): void {
    this.#field.value = '';
    this.#line.remove();
  }
}

/** Under the numbers, over the foot of the paper, mm. Not a clinical number. */
const MARK = { top: 10, bottom: 5 };
