/**
 * A figure as vector marks on a sheet measured in millimetres, origin top left, y down.
 * The same drawing is written as SVG for the page and into the PDF, so both show the same figure at true scale.
 */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** How a line is drawn. */
export interface Stroke {
  readonly colour: string;
  /** Line width in mm. */
  readonly width: number;
  /** Dash and gap lengths in mm. */
  readonly dash?: readonly number[];
}

/** A place in a drawing: x to the right, y down. */
export type Point = readonly [x: number, y: number];

/** What a mark is a piece of, for whoever brings the drawing to life. */
export interface Part {
  readonly name: string;
  /** When its turn comes within the part's own time, 0 to 1. */
  readonly turn?: number;
}

/** A thing that a drawing is made of. */
export type Mark = Shape & { readonly part?: Part };

type Shape =
  | { readonly kind: 'line'; readonly points: readonly Point[]; readonly stroke: Stroke }
  | {
      readonly kind: 'area';
      readonly points: readonly Point[];
      readonly fill: string;
      readonly stroke?: Stroke;
    }
  | {
      readonly kind: 'circle';
      readonly centre: Point;
      readonly radius: number;
      readonly fill?: string;
      readonly stroke?: Stroke;
    }
  | {
      readonly kind: 'text';
      /** Anchor point on the baseline. */
      readonly at: Point;
      readonly text: string;
      /** Height of the em square in mm. */
      readonly size: number;
      readonly weight: 'regular' | 'bold';
      readonly align: 'start' | 'middle' | 'end';
      readonly colour: string;
    };
