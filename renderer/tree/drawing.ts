import { inPieces } from './runPath.ts';
import { type Reach, reachOf, type Shape } from './shapes.ts';
import type { TreeKey } from './treeNode.ts';

/** The drawing in its four fields: the years over it, the makers beside it, the body, and what its signs mean under it. */
export interface Drawing {
  readonly axis: Field;
  readonly margin: Field;
  /** The rows of each maker, from top to bottom without gap. */
  readonly bands: readonly { readonly key: TreeKey; readonly y0: number; readonly y1: number }[];
  readonly body: Field;
  readonly legend: Field;
  /** The signs one by one, to be set in as many lines as there is room for. */
  readonly signs: readonly (Field & { readonly text: string })[];
}

/** A field is asked for what stands in a part of it, so that a large tree is never drawn where nobody looks. */
export interface Field {
  readonly width: number;
  readonly height: number;
  /** What meets the part, the lower first. */
  shapesIn(part: Reach): readonly Shape[];
}

export const everywhere: Reach = {
  x0: Number.NEGATIVE_INFINITY,
  x1: Number.POSITIVE_INFINITY,
  y0: Number.NEGATIVE_INFINITY,
  y1: Number.POSITIVE_INFINITY,
};

export const marginWidth = 122;
export const axisHeight = 28;
export const legendHeight = 26;
/** Room for a maker's name in two lines, and how many families it has. */
export const makerHeight = 60;

/** A field of shapes that `made` makes: it may leave out what does not meet the part, and need not. */
export const fieldOf = (width: number, height: number, made: (part: Reach) => readonly Shape[]): Field => ({
  width,
  height,
  shapesIn: (part) =>
    made(part)
      .filter((shape) => meets(reachOf(shape), part))
      .flatMap((shape) => inPieces(shape, part)),
});

const meets = (a: Reach, b: Reach): boolean => a.x1 >= b.x0 && a.x0 <= b.x1 && a.y1 >= b.y0 && a.y0 <= b.y1;
