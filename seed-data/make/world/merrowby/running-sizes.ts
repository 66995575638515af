/**
 * Merrowby's running sizes, smallest wheel first: each stands for one compressor wheel in every family that has it, by the exducer
 * in whole mm on the drawing, and for the colour word cast beside it. The number itself measures nothing.
 */
const sizes: readonly (readonly [exducer: number, colour: string])[] = [
  [38, 'madder'],
  [41, 'ochre'],
  [44, 'saffron'],
  [46, 'citron'],
  [47, 'lichen'],
  [48, 'moss'],
  [49, 'fern'],
  [51, 'jade'],
  [52, 'teal'],
  [53, 'azure'],
  [54, 'woad'],
  [56, 'indigo'],
  [57, 'mauve'],
  [58, 'heather'],
  [59, 'damson'],
  [60, 'plum'],
  [61, 'crimson'],
  [63, 'russet'],
  [64, 'umber'],
  [65, 'sepia'],
  [66, 'slate'],
  [69, 'chalk'],
];

/** The running size of a wheel by its exducer, whole mm. Throws on a wheel Merrowby never drew. */
export const runningSize = (exducer: number): number => {
  const at = sizes.findIndex(([each]) => each === exducer);
  if (at < 0) throw new Error(`no running size for a wheel of ${exducer} mm`);
  return at + 1;
};

/** The exducer, whole mm, that a running size stands for. */
export const exducerOf = (size: number): number => {
  const found = sizes[size - 1];
  if (found === undefined) throw new Error(`no running size ${size}`);
  return found[0];
};

/** The colour word cast on what belongs to a wheel of this exducer, whole mm. */
export const colourOf = (exducer: number): string => sizes[runningSize(exducer) - 1]?.[1] ?? '';

/** What each running size promises of the wheel: its exducer in mm, by the size as it is written in a name. */
export const wheelsBySize: Readonly<Record<string, number>> = Object.fromEntries(sizes.map(([exducer], at) => [`${at + 1}`, exducer]));
export const largestSize = sizes.length;
