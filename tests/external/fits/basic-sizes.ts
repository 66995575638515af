import type { Thread } from '../../../reasoner/index.ts';

/** Basic sizes in mm: pitch diameter d2 = D2, minor diameter of the nut D1, root of the screw d3 where the standard gives one. */
export interface BasicSizes {
  readonly pitchDiameter: number;
  readonly minor: number;
  readonly root: number | null;
}

/**
 * Basic sizes of a thread. Metric and unified (H = √3/2·P): d2 = d − 0.649519P, D1 = d − 1.082532P, d3 = d − 1.226869P (ISO 724).
 * ISO 228: tooth height 0.640327P, d2 = d − 0.640327P, d1 = d − 1.280654P. NPT: pitch diameter at the small end E0 = D − (0.05D + 1.1)p (ASME B1.20.1, from
 * memory); a taper has no minor diameter of its own.
 */
export const basicSizes = (thread: Thread): BasicSizes | { readonly pitchDiameter: number; readonly minor: null; readonly root: null } => {
  const { major, pitch } = thread;
  switch (thread.form) {
    case 'metric':
    case 'unified':
      return { pitchDiameter: major - 0.649519 * pitch, minor: major - 1.082532 * pitch, root: major - 1.226869 * pitch };
    case 'parallel pipe':
      return { pitchDiameter: major - 0.640327 * pitch, minor: major - 1.280654 * pitch, root: null };
    case 'taper pipe':
      return { pitchDiameter: major - (0.05 * (major / 25.4) + 1.1) * pitch, minor: null, root: null };
  }
};
