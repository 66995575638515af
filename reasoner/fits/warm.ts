import type { Span } from './fit.ts';

/** One side of a clearance in service. Diameters mm cold, expansion 1/K, rise in K above the temperature it was measured at (20 °C). */
export interface Warmed {
  readonly diameter: number;
  readonly expansion: number;
  readonly rise: number;
}

/** A wheel at speed, taken as a flat disc of even thickness with a bore. rev/min, mm, kg/m³, GPa. */
export interface Spinning {
  readonly speed: number;
  /** Outer and bore diameter; bore 0 for a solid wheel. */
  readonly diameter: number;
  readonly bore: number;
  readonly density: number;
  readonly young: number;
  readonly poisson: number;
}

/** A clearance warm, always beside the cold one, mm. */
export interface WarmClearance {
  readonly cold: Span;
  readonly warm: Span;
  /** What expansion adds to the clearance; negative where it closes. */
  readonly thermal: number;
  /** What the wheel's growth at speed takes from it, or null when no speed was given. */
  readonly growth: number | null;
  readonly assumptions: readonly string[];
}

/**
 * A clearance outer − inner (`per` 1, on the diameter) or half of it (`per` 2, radial) with both sides warm and the inner one turning:
 * change = (outer.diameter·α·ΔT − inner.diameter·α·ΔT − growth)/per. An estimate to set beside the cold figure; no verdict rests on it.
 */
export const warmClearance = (cold: Span, per: 1 | 2, outer: Warmed, inner: Warmed, spinning?: Spinning): WarmClearance => {
  const thermal = (expansionOf(outer) - expansionOf(inner)) / per;
  const growth = spinning ? growthOf(spinning) / per : null;
  const change = thermal - (growth ?? 0);
  return {
    cold,
    warm: { least: cold.least + change, greatest: cold.greatest + change },
    thermal,
    growth,
    assumptions: [
      'Each part has one temperature throughout and expands freely.',
      'The expansion figures are means near room temperature.',
      ...(spinning
        ? ['The wheel’s growth at speed is estimated as that of a flat disc of even thickness.']
        : ['The wheel’s growth at speed is left out, since no speed is known.']),
      'Movement of the shaft in its bearings is left out.',
    ],
  };
};

/** Growth in diameter by temperature: D·α·ΔT, mm. */
export const expansionOf = ({ diameter, expansion, rise }: Warmed): number => diameter * expansion * rise;

/**
 * Growth in diameter of a turning disc of even thickness, mm: 2u with u = ρω²R/(4E)·[(1 − ν)R² + (3 + ν)r²]. At r = R this is the thin ring ρω²R³/E.
 * Source: Timoshenko & Goodier, *Theory of Elasticity*, rotating discs; from memory (M).
 */
export const growthOf = ({ speed, diameter, bore, density, young, poisson }: Spinning): number => {
  const omega = (2 * Math.PI * speed) / 60;
  const [outer, inner] = [diameter / 2000, bore / 2000];
  const radial = ((density * omega ** 2 * outer) / (4 * young * 1e9)) * ((1 - poisson) * outer ** 2 + (3 + poisson) * inner ** 2);
  return 2 * radial * 1000;
};
