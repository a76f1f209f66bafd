import type { ChartConfiguration, ChartType } from 'chart.js';
import { ChartJSNodeCanvas } from 'chartjs-node-canvas';
import type { Drawing } from '../draw/drawing.js';
import { CSS_PIXELS_PER_MM, RecordedCanvas } from './recorded-canvas.js';

/** The library puts edges on whole dots; as fine as three of them to a CSS pixel. */
const DENSITY = 3;

/**
 * A chart as a drawing of its true size. The size is cut to whole CSS pixels, so the drawing is at most 0.27 mm smaller than
 * asked and never wider.
 */
export function chartDrawing<T extends ChartType>(
  configuration: ChartConfiguration<T>,
  room: { readonly widthMm: number; readonly heightMm: number },
): Drawing {
  const width = Math.floor(room.widthMm * CSS_PIXELS_PER_MM);
  const height = Math.floor(room.heightMm * CSS_PIXELS_PER_MM);
  const marks = chartist(width, height).marks({
    ...configuration,
    // The library writes into what it is given.
    data: { ...configuration.data },
    options: { ...configuration.options, devicePixelRatio: DENSITY },
  } as ChartConfiguration);
  if (marks.length === 0) throw new Error('the chart was not drawn');
  return { width: width / CSS_PIXELS_PER_MM, height: height / CSS_PIXELS_PER_MM, marks };
}

/** Draws charts without a browser, on a canvas that keeps what is drawn in place of its dots. */
class Chartist extends ChartJSNodeCanvas {
  private taken: Drawing['marks'] = [];

  constructor(width: number, height: number) {
    super({ width, height });
    Object.assign(this, {
      _createCanvas: () =>
        new RecordedCanvas(width, height, (marks) => {
          this.taken = marks;
        }),
    });
  }

  marks(configuration: ChartConfiguration): Drawing['marks'] {
    this.taken = [];
    this.renderToBufferSync(configuration);
    return this.taken;
  }
}

const known = new Map<string, Chartist>();

/** The chart library is read anew for each size, so those few are kept. */
function chartist(width: number, height: number): Chartist {
  const size = `${width} x ${height}`;
  const one = known.get(size) ?? new Chartist(width, height);
  known.set(size, one);
  return one;
}
