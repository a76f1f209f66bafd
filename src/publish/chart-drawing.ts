import type { ChartConfiguration, ChartType } from 'chart.js';
import { ChartJSNodeCanvas } from 'chartjs-node-canvas';
import type { Drawing } from '../draw/drawing.js';
import { once } from '../units/once.js';
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
  const marks = chartist().marks(width, height, {
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
  private canvas = new RecordedCanvas(0, 0);

  constructor() {
    // Of any size: each canvas has its own.
    super({ width: 1, height: 1 });
    Object.assign(this, { _createCanvas: () => this.canvas });
  }

  /** @param width in CSS px, as `height` */
  marks(width: number, height: number, configuration: ChartConfiguration): Drawing['marks'] {
    let taken: Drawing['marks'] = [];
    this.canvas = new RecordedCanvas(width, height, (marks) => {
      taken = marks;
    });
    this.renderToBufferSync(configuration);
    return taken;
  }
}

/** Each one reads the chart library anew, so that one draws the charts of every size. */
const chartist = once(() => new Chartist());
