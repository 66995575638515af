import { tenth } from '../pack/facts.ts';

/**
 * The three sizes that place a wheel in its contour, mm. `inducer` is the eye of a compressor wheel and the outer,
 * entry diameter of a turbine wheel; `exducer` the other one.
 */
export interface WheelSize {
  readonly inducer: number;
  readonly exducer: number;
  readonly tipHeight: number;
}

/** A compressor wheel by its exducer and trim (inducer² / exducer² × 100), with the house's own rule for the tip. */
export const compressorSize = (exducer: number, trim: number, tipRatio: number): WheelSize => ({
  exducer,
  inducer: tenth(exducer * Math.sqrt(trim / 100)),
  tipHeight: tenth(exducer * tipRatio + 0.7),
});

/** A turbine wheel by its inducer and trim (exducer² / inducer² × 100). */
export const turbineSize = (inducer: number, trim: number, tipRatio: number): WheelSize => ({
  inducer,
  exducer: tenth(inducer * Math.sqrt(trim / 100)),
  tipHeight: tenth(inducer * tipRatio + 1.1),
});
