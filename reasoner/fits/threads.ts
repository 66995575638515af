import { mmPerInch } from '../plain/units.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { coarsePitches, parallelPipe, taperPipe, unifiedSeries } from './thread-tables.ts';

/** A screw thread as its designation gives it. Lengths in mm. */
export interface Thread {
  readonly form: 'metric' | 'unified' | 'parallel pipe' | 'taper pipe';
  /** The designation as the standard writes it, without tolerance class: `M10×1`, `G 1/8`, `1/8-27 NPT`, `7/16-20 UNF`. */
  readonly text: string;
  /** Basic major diameter; of a taper pipe thread the outside diameter of the pipe. */
  readonly major: number;
  readonly pitch: number;
  /** Angle of the flanks, degrees. */
  readonly angle: 60 | 55;
  /** Left hand is marked LH (ISO 965-1, from memory); unmarked is right hand. */
  readonly hand: 'right' | 'left';
}

const size = String.raw`(#\d+|\d+ \d+/\d+|\d+/\d+|\d+)`;
const left = '(?:[ -]*(LH))?';
const metric = new RegExp(
  String.raw`^M ?(\d+(?:[.,]\d+)?)(?: ?[x×] ?(\d+(?:[.,]\d+)?))?(?: ?- ?\d[a-h](?:\d[a-h])?(?:/\d[a-h](?:\d[a-h])?)?)?${left}$`,
  'i',
);
const parallel = new RegExp(`^G ?${size}(?: ?[AB])?${left}$`, 'i');
const taper = new RegExp(`^(?:NPT ?${size}|${size}(?:-([\\d.]+))? ?NPT)${left}$`, 'i');
const unified = new RegExp(String.raw`^${size}(?: ?- ?(\d+))? (UNC|UNF|UNEF|UNS|UN)(?: ?- ?[123][AB])?${left}$`, 'i');

/**
 * Reads a designation: ISO 261 metric (`M8`, `M8x1`, `M8×1 LH`, `M8x1-6H`), ISO 228 (`G1/8`, `G 1/2 A`), NPT (`NPT 1/8`, `1/8-27 NPT`) and unified
 * inch (`7/16-20 UNF`, `#10-32 UNF`). Capitals do not matter. A size the tables do not hold, a fraction that is not less than one, or a pitch that
 * contradicts its series, is refused.
 */
export const readThread = (designation: string): Outcome<Thread> => {
  const text = designation.trim().replace(/\s+/g, ' ');
  const hand = (mark: string | undefined): Thread['hand'] => (mark ? 'left' : 'right');
  let read = metric.exec(text);
  if (read) return metricThread(number(read[1] as string), read[2] === undefined ? null : number(read[2]), hand(read[3]));
  read = parallel.exec(text);
  if (read) return parallelThread(read[1] as string, hand(read[2]));
  read = taper.exec(text);
  if (read) return taperThread((read[1] ?? read[2]) as string, read[3] ? Number(read[3]) : null, hand(read[4]));
  read = unified.exec(text);
  if (read) return unifiedThread(read[1] as string, read[2] ? Number(read[2]) : null, (read[3] as string).toUpperCase(), hand(read[4]));
  return refused(`"${designation}" is no thread designation known here: expected one such as M8x1, G1/8, 1/8-27 NPT or 7/16-20 UNF.`);
};

/** ISO 261 runs from 1 to 300 mm (from memory). */
const greatestMetric = 300;

const metricThread = (major: number, stated: number | null, hand: Thread['hand']): Outcome<Thread> => {
  const coarse = coarsePitches[major];
  const pitch = stated ?? coarse;
  if (pitch === undefined) return refused(`M${major} has no coarse pitch in ISO 261; its pitch must be stated, as in M${major}x1.`);
  if (!(major <= greatestMetric)) return refused(`M${major} is beyond ISO 261, which ends at M${greatestMetric}.`);
  if (!(pitch > 0) || major - 1.226869 * pitch <= 0)
    return refused(`M${major}x${pitch}: a pitch of ${pitch} mm leaves no core in ${major} mm.`);
  return done({ form: 'metric', text: `M${major}×${pitch}`, major, pitch, angle: 60, hand });
};

const parallelThread = (name: string, hand: Thread['hand']): Outcome<Thread> => {
  const row = parallelPipe[name];
  if (!row) return refused(`G ${name} is not in the ISO 228 table held here (${Object.keys(parallelPipe).join(', ')}).`);
  return done({ form: 'parallel pipe', text: `G ${name}`, major: row.major, pitch: mmPerInch / row.perInch, angle: 55, hand });
};

const taperThread = (name: string, perInch: number | null, hand: Thread['hand']): Outcome<Thread> => {
  const row = taperPipe[name];
  if (!row) return refused(`NPT ${name} is not in the table held here (${Object.keys(taperPipe).join(', ')}).`);
  if (perInch !== null && perInch !== row.perInch) return refused(`NPT ${name} has ${row.perInch} threads per inch; found ${perInch}.`);
  const [major, pitch] = [row.outside * mmPerInch, mmPerInch / row.perInch];
  return done({ form: 'taper pipe', text: `${name}-${row.perInch} NPT`, major, pitch, angle: 60, hand });
};

const unifiedThread = (name: string, stated: number | null, series: string, hand: Thread['hand']): Outcome<Thread> => {
  const expected = series === 'UNC' || series === 'UNF' ? unifiedSeries[series][name] : undefined;
  const perInch = stated ?? expected;
  if (perInch === undefined) return refused(`${name} ${series} is not in the table held here; its threads per inch must be stated.`);
  if (expected !== undefined && perInch !== expected)
    return refused(`${name} ${series} has ${expected} threads per inch; found ${perInch}.`);
  const inches = inchesOf(name);
  if (inches === null) return refused(`${name} is no size: a fraction is less than one, as in 7/16 or 1 1/8.`);
  const [major, pitch] = [inches * mmPerInch, mmPerInch / perInch];
  if (!Number.isFinite(major)) return refused(`${name} ${series} is no size.`);
  if (!(pitch > 0) || major - 1.226869 * pitch <= 0) return refused(`${name}-${perInch} ${series}: the thread leaves no core.`);
  return done({ form: 'unified', text: `${name}-${perInch} ${series}`, major, pitch, angle: 60, hand });
};

const number = (text: string): number => Number(text.replace(',', '.'));

/** Inch sizes: `7/16`, `1 1/4`, and the numbered ones, 0.060 + 0.013 n (ASME B1.1, from memory). Null for a fraction that is none, or not less than one. */
const inchesOf = (name: string): number | null => {
  if (name.startsWith('#')) return 0.06 + 0.013 * Number(name.slice(1));
  let inches = 0;
  for (const term of name.split(' ')) {
    const [above, below] = term.split('/').map(Number) as [number, number?];
    if (below !== undefined && !(above > 0 && above < below)) return null;
    inches += above / (below ?? 1);
  }
  return inches;
};

export type ThreadDifference = 'form' | 'size' | 'pitch' | 'hand';

/** Whether two threads go together, in what they differ, and whether one may be taken for the other by hand or eye. */
export interface ThreadMeeting {
  readonly differs: readonly ThreadDifference[];
  readonly nearMiss: boolean;
}

/**
 * Compares two threads; nothing differs when they mate. A near miss may be started by hand and then binds, strips or leaks: majors
 * within 6 % with pitches within 13 %, or the same major with another pitch or hand. (The two percentages are ours: they take in the usual
 * mistakes, M10×1 for G 1/8 and 9/16-18 UNF for M14×1.5, and leave out threads nobody can start.)
 */
export const threadsMeet = (one: Thread, other: Thread): ThreadMeeting => {
  const size = Math.abs(one.major - other.major);
  const pitch = Math.abs(one.pitch - other.pitch);
  const differs: ThreadDifference[] = [];
  if (one.form !== other.form) differs.push('form');
  if (size > 1e-6) differs.push('size');
  if (pitch > 1e-6) differs.push('pitch');
  if (one.hand !== other.hand) differs.push('hand');
  const greater = Math.max(one.major, other.major);
  const close = size <= 0.06 * greater && pitch <= 0.13 * Math.max(one.pitch, other.pitch);
  return { differs, nearMiss: differs.length > 0 && (close || size <= 0.005 * greater) };
};
