import type { TreeKey } from './treeNode.ts';

/** Colours by the names of renderer/look/tokens.css; the window and what is exported resolve them each in their own way. */
export type Ink =
  | 'paper'
  | 'leaf'
  | 'well'
  | 'ink'
  | 'ink-soft'
  | 'ink-faint'
  | 'line'
  | 'line-strong'
  | 'accent'
  | 'accent-wash'
  | 'out'
  | 'open'
  | 'open-wash'
  | 'stands';

interface Common {
  /** Unlike any other of the drawing, and the same at every drawing of the same thing. */
  readonly id: string;
  /** The node it is a picture of: picking the shape picks the node. */
  readonly node?: TreeKey;
  /** The nodes a line joins. */
  readonly joins?: readonly TreeKey[];
  /** True of what is shared, which joins without being a line of descent. */
  readonly shares?: boolean;
  readonly opacity?: number;
}

/** What a drawing is made of. Places in px, at the drawing's own scale. */
export type Shape =
  | (Common & {
      readonly kind: 'rect';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly round?: number;
      readonly fill?: Ink;
      readonly stroke?: Ink;
      readonly strokeWidth?: number;
      readonly dash?: string;
    })
  | (Common & {
      readonly kind: 'path';
      readonly d: string;
      /** Where it reaches, for leaving out what is not in view. */
      readonly reach: Reach;
      /** Of a line in level and upright pieces: what `d` runs through, for drawing a part of it alone. */
      readonly run?: Run;
      readonly fill?: Ink;
      readonly stroke?: Ink;
      readonly strokeWidth?: number;
      readonly dash?: string;
      /** How far into its dashes a piece of a longer line begins. */
      readonly dashFrom?: number;
    })
  | (Common & {
      readonly kind: 'dot';
      readonly x: number;
      readonly y: number;
      readonly r: number;
      readonly fill: Ink;
      readonly stroke?: Ink;
    })
  | (Common & {
      readonly kind: 'text';
      readonly x: number;
      /** The base line. */
      readonly y: number;
      readonly text: string;
      readonly size: number;
      readonly weight: number;
      readonly fill: Ink;
      readonly face?: 'title';
      readonly anchor?: 'middle' | 'end';
      /** Drawn round the letters, so that they stay legible over lines. */
      readonly halo?: Ink;
      /** A quarter turn, reading upwards. */
      readonly upright?: boolean;
    });

/** A line through points, its corners rounded. */
export interface Run {
  readonly points: readonly (readonly [x: number, y: number])[];
  readonly radius: number;
}

export interface Reach {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

export const reachOf = (shape: Shape): Reach => {
  switch (shape.kind) {
    case 'rect':
      return { x0: shape.x, x1: shape.x + shape.width, y0: shape.y, y1: shape.y + shape.height };
    case 'path':
      return shape.reach;
    case 'dot':
      return { x0: shape.x - shape.r, x1: shape.x + shape.r, y0: shape.y - shape.r, y1: shape.y + shape.r };
    case 'text': {
      const length = widthOf(shape.text, shape.size, shape.weight);
      if (shape.upright) return { x0: shape.x - shape.size, x1: shape.x + 4, y0: shape.y - length, y1: shape.y };
      const x0 = shape.anchor === 'end' ? shape.x - length : shape.anchor === 'middle' ? shape.x - length / 2 : shape.x;
      return { x0, x1: x0 + length, y0: shape.y - shape.size, y1: shape.y + 4 };
    }
  }
};

/** About how wide a text is, in px; a little on the safe side. The layout must not hang on what fonts a machine has. */
export function widthOf(text: string, size: number, weight: number): number {
  let ems = 0;
  for (const letter of text) ems += emsOf.get(letter) ?? 0.5;
  return ems * size * (weight >= 600 ? 1.05 : 1);
}

const emsOf: ReadonlyMap<string, number> = new Map(
  (
    [
      ["ijl.,;:'’|!()[] ", 0.27],
      ['mwMW—', 0.8],
      ['ABCDEFGHIJKLNOPQRSTUVXYZ', 0.6],
      ['frt-', 0.37],
    ] as const
  ).flatMap(([letters, ems]) => [...letters].map((letter) => [letter, ems] as const)),
);

/** The text, shortened with … until it fits; empty when not even three letters do. */
export function shortened(text: string, width: number, size: number, weight: number): string {
  if (widthOf(text, size, weight) <= width) return text;
  for (let length = text.length - 1; length >= 3; length -= 1) {
    const short = `${text.slice(0, length).trimEnd()}…`;
    if (widthOf(short, size, weight) <= width) return short;
  }
  return '';
}
