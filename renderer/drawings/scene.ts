import type { FeatureId } from '../../reasoner/index.ts';

/**
 * A drawing as data: shapes in millimetres, x to the right and y down, as SVG has it. One unit of the picture is one
 * millimetre of the part, so that whatever the atlas gives can be measured again from what is shown.
 */
export interface Scene {
  readonly title: string;
  /** The same in one sentence, for who cannot see it. */
  readonly says: string;
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** Height of the letters, mm: all scenes are shown at the same size of letters. */
  readonly letter: number;
  readonly shapes: readonly Shape[];
  /** Features the drawing shows, known or not. */
  readonly features: readonly FeatureId[];
  /** Those of them the atlas does not know: drawn dashed, with a question mark. */
  readonly unknown: readonly FeatureId[];
  /** Fine lines carry no size. Without any size at all there is no scale either. */
  readonly toScale: boolean;
}

/**
 * `edge` is an outline the atlas gives a size for; `blade` the same for something counted; `fine` is there to read the drawing by and no size stands behind it;
 * `guess` is a place where something is not known. `metal` and `tint` fill.
 */
export type Look = 'edge' | 'blade' | 'fine' | 'guess' | 'axis' | 'dimension' | 'arrow' | 'metal' | 'tint' | 'scale';

export type Point = readonly [x: number, y: number];

export type Shape =
  | { readonly kind: 'line'; readonly from: Point; readonly to: Point; readonly look: Look; readonly feature?: FeatureId }
  | { readonly kind: 'circle'; readonly at: Point; readonly radius: number; readonly look: Look; readonly feature?: FeatureId }
  | {
      readonly kind: 'path';
      readonly start: Point;
      readonly steps: readonly Step[];
      readonly closed: boolean;
      readonly look: Look;
      readonly feature?: FeatureId;
    }
  | {
      readonly kind: 'text';
      readonly at: Point;
      readonly text: string;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly look: 'label' | 'query';
      readonly feature?: FeatureId;
    };

/** A straight line, a curve pulled towards `by`, or an arc of a circle. */
export type Step =
  | { readonly to: Point }
  | { readonly to: Point; readonly by: Point }
  | { readonly to: Point; readonly radius: number; readonly clockwise: boolean };

/** The point at `radius` from `centre`; degrees from twelve o'clock, clockwise. */
export const onCircle = (centre: Point, radius: number, degrees: number): Point => {
  const angle = (degrees * Math.PI) / 180;
  return [centre[0] + radius * Math.sin(angle), centre[1] - radius * Math.cos(angle)];
};

/** The path as SVG writes it. */
export const pathOf = (start: Point, steps: readonly Step[], closed: boolean): string => {
  const at = ([x, y]: Point) => `${tidy(x)} ${tidy(y)}`;
  const said = steps.map((step) => {
    if ('by' in step) return `Q${at(step.by)} ${at(step.to)}`;
    if ('radius' in step) return `A${tidy(step.radius)} ${tidy(step.radius)} 0 0 ${step.clockwise ? 1 : 0} ${at(step.to)}`;
    return `L${at(step.to)}`;
  });
  return `M${at(start)}${said.join('')}${closed ? 'Z' : ''}`;
};

/** A tenth of a micrometre is finer than anything the atlas says. */
export const tidy = (value: number): number => Math.round(value * 1e4) / 1e4;
