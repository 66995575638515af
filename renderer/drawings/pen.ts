import type { FeatureId } from '../../reasoner/index.ts';
import { lengthIn, sayMeasure } from '../values/lengths.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import type { Look, Point, Scene, Shape, Step } from './scene.ts';

/** How many letters high a part is drawn. */
export const lettersAcross = 18;

/** What is drawn, shape by shape; the frame grows with it. */
export class Pen {
  readonly letter: number;
  readonly #shapes: Shape[] = [];
  readonly #unit: LengthUnit;
  #left = Number.POSITIVE_INFINITY;
  #right = Number.NEGATIVE_INFINITY;
  #top = Number.POSITIVE_INFINITY;
  #bottom = Number.NEGATIVE_INFINITY;

  /** @param reach about how far the part extends, mm: letters and arrows are sized by it */
  constructor(reach: number, unit: LengthUnit = 'mm') {
    this.#unit = unit;
    this.letter = reach / lettersAcross;
  }

  get bottom(): number {
    return this.#bottom;
  }
  get left(): number {
    return this.#left;
  }
  get right(): number {
    return this.#right;
  }
  get top(): number {
    return this.#top;
  }

  line(from: Point, to: Point, look: Look, feature?: FeatureId): void {
    this.#meet(from, to);
    this.#shapes.push({ kind: 'line', from, to, look, ...of(feature) });
  }

  circle(at: Point, radius: number, look: Look, feature?: FeatureId): void {
    this.#meet([at[0] - radius, at[1] - radius], [at[0] + radius, at[1] + radius]);
    this.#shapes.push({ kind: 'circle', at, radius, look, ...of(feature) });
  }

  path(start: Point, steps: readonly Step[], look: Look, feature?: FeatureId): void {
    this.#draw(start, steps, false, look, feature);
  }

  area(start: Point, steps: readonly Step[], look: Look, feature?: FeatureId): void {
    this.#draw(start, steps, true, look, feature);
  }

  box(corner: Point, width: number, height: number, look: Look, feature?: FeatureId): void {
    const [x, y] = corner;
    this.area(corner, [{ to: [x + width, y] }, { to: [x + width, y + height] }, { to: [x, y + height] }], look, feature);
  }

  text(at: Point, text: string, anchor: 'start' | 'middle' | 'end', feature?: FeatureId, look: 'label' | 'query' = 'label'): void {
    const width = widthOf(text) * this.letter;
    const left = anchor === 'start' ? at[0] : anchor === 'middle' ? at[0] - width / 2 : at[0] - width;
    this.#meet([left, at[1] - this.letter], [left + width, at[1] + this.letter * 0.3]);
    this.#shapes.push({ kind: 'text', at, text, anchor, look, ...of(feature) });
  }

  /** Where something belongs that is not known. */
  query(at: Point, feature?: FeatureId): void {
    this.text([at[0], at[1] + this.letter * 0.36], '?', 'middle', feature, 'query');
  }

  scene(about: {
    readonly title: string;
    readonly says: string;
    readonly features: readonly FeatureId[];
    readonly unknown: readonly FeatureId[];
    readonly toScale: boolean;
  }): Scene {
    if (about.toScale) this.#scaleBar();
    const margin = this.letter * 0.6;
    return {
      ...about,
      letter: this.letter,
      shapes: this.#shapes,
      box: {
        x: this.#left - margin,
        y: this.#top - margin,
        width: this.#right - this.#left + 2 * margin,
        height: this.#bottom - this.#top + 2 * margin,
      },
    };
  }

  /** A round length between a tenth and a quarter of the drawing, below it at the left. */
  #scaleBar(): void {
    const one = 1 / lengthIn(1, this.#unit);
    const length = roundLength((this.letter * 5.5) / one) * one;
    const y = this.#bottom + this.letter * 1.3;
    const x = this.#left;
    const tick = this.letter * 0.3;
    this.line([x, y], [x + length, y], 'scale');
    this.line([x, y - tick], [x, y + tick], 'scale');
    this.line([x + length, y - tick], [x + length, y + tick], 'scale');
    this.text([x + length + this.letter * 0.4, y + this.letter * 0.35], sayMeasure(length, 'mm', this.#unit), 'start');
  }

  #draw(start: Point, steps: readonly Step[], closed: boolean, look: Look, feature: FeatureId | undefined): void {
    this.#meet(start, ...steps.flatMap((step) => ('by' in step ? [step.to, step.by] : [step.to])));
    this.#shapes.push({ kind: 'path', start, steps, closed, look, ...of(feature) });
  }

  #meet(...points: readonly Point[]): void {
    for (const [x, y] of points) {
      this.#left = Math.min(this.#left, x);
      this.#right = Math.max(this.#right, x);
      this.#top = Math.min(this.#top, y);
      this.#bottom = Math.max(this.#bottom, y);
    }
  }
}

/** About how wide a text runs in the window's text face, in heights of its letters. */
export const widthOf = (text: string): number => [...text].reduce((sum, sign) => sum + (/[A-Z0-9×⌀]/.test(sign) ? 0.66 : 0.52), 0);

/** The greatest of 1, 2, 5, 10, 20 … that is not longer than `most`. */
export const roundLength = (most: number): number => {
  const ten = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((step) => step * ten).find((length) => length <= most) ?? ten;
};

const of = (feature: FeatureId | undefined) => (feature === undefined ? {} : { feature });
