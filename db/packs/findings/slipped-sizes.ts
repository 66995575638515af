import type { Warning } from '../warnings.ts';
import { warning } from '../warnings.ts';
import type { Finding, Ground } from './ground.ts';
import { rangeText, sizeText } from './ground.ts';
import { type Among, meantBy, type Size, type Slip, sizesAmong, swapped } from './sizes.ts';

/** Sizes a common slip away from what they are held against. */
export const slippedIn = (ground: Ground): ReadonlyMap<Among, Slipped> => {
  const before = kept.get(ground);
  if (before !== undefined) return before;
  const found = new Map<Among, Slipped>();
  for (const among of sizesAmong(ground)) {
    const slip = slipFromKin(among) ?? slipFromGroup(among);
    if (slip !== null) found.set(among, slip);
  }
  // Where the other of the two is a slip itself, it says nothing against this one.
  const slipped = new Set([...found.keys()].map(({ part, feature }) => `${part.id} ${feature.id}`));
  for (const [among, { from }] of found) if (from !== null && slipped.has(`${from} ${among.feature.id}`)) found.delete(among);
  kept.set(ground, found);
  return found;
};

const kept = new WeakMap<Ground, ReadonlyMap<Among, Slipped>>();

export interface Slipped {
  readonly slip: Slip;
  /** What it is held against, in words. */
  readonly where: string;
  /** The one part it is held against, where it is one. */
  readonly from: string | null;
}

/** A part is made to the size of what it is a pattern of, or took the place of, but for a small part of it. */
const near = (size: number, other: number): boolean => Math.abs(size / other - 1) <= 0.05;

/** Its original has a size that is this one with a slip undone; and this one is no size near it. */
const slipFromKin = ({ feature, nominal, kin }: Among): Slipped | null => {
  for (const { part, nominal: theirs, as } of kin) {
    if (nominal === theirs) continue;
    const twist = swapped(nominal).find(({ meant }) => meant === theirs);
    const slip = twist ?? (apart(nominal, theirs) ? meantBy(nominal, feature).find(({ meant }) => near(meant, theirs)) : undefined);
    if (slip !== undefined)
      return { slip, where: `where ${JSON.stringify(part.name)}, which it ${as}, has ${sizeText(theirs, feature)}`, from: part.id };
  }
  return null;
};

/** No size within three times of another is taken for a moved point, nor for inches. */
const apart = (size: number, other: number): boolean => size > other * 3 || size < other / 3;

/** All others are far off, and with a slip undone it stands in their midst. */
const slipFromGroup = ({ feature, part, nominal, group, of }: Among): Slipped | null => {
  const [below, above] = neighbours(group, part.id, nominal);
  const others = group.length - 1;
  if (others < (of === 'family' ? 3 : 5)) return null;
  const [least, most] = endsBut(group, part.id);
  const where = (): string =>
    `where ${of === 'family' ? `the ${others} other parts of its family have` : `${others} other parts have`} ${rangeText(least, most, feature)}`;
  if ((below === null || apart(nominal, below)) && (above === null || apart(nominal, above))) {
    const slip = meantBy(nominal, feature).find(({ meant }) => meant >= least * 0.9 && meant <= most * 1.1);
    return slip === undefined ? null : { slip, where: where(), from: null };
  }
  // Two figures swapped stay near: it must lie outside the others, and the size that was meant must be one of theirs.
  if (of !== 'family' || (nominal >= least * 0.95 && nominal <= most * 1.05)) return null;
  const twist = swapped(nominal).find(({ meant }) => group.some((size) => size.part.id !== part.id && size.nominal === meant));
  return twist === undefined ? null : { slip: twist, where: where(), from: null };
};

/** The sizes next to one in a list by size, its own left out; an equal one is its neighbour. */
const neighbours = (group: readonly Size[], part: string, nominal: number): readonly [number | null, number | null] => {
  let [low, high] = [0, group.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((group[middle] as Size).nominal < nominal) low = middle + 1;
    else high = middle;
  }
  const from = group[low]?.part.id === part ? low + 1 : low;
  return [group[low - 1]?.nominal ?? null, group[from]?.nominal ?? null];
};

const endsBut = (group: readonly Size[], part: string): readonly [number, number] => {
  const first = group[0]?.part.id === part ? group[1] : group[0];
  const last = group.at(-1)?.part.id === part ? group.at(-2) : group.at(-1);
  return [first?.nominal ?? 0, last?.nominal ?? 0];
};

function* find(ground: Ground): Generator<Warning> {
  for (const [{ feature, part, nominal }, { slip, where }] of slippedIn(ground))
    yield warning(
      ground.at.fact(part.id, feature.id, 'value'),
      `the ${feature.name} of ${JSON.stringify(part.name)} is ${sizeText(nominal, feature)}, ${where}`,
      'Units that are right would be held against it.',
      {
        likely: `It would be ${sizeText(slip.meant, feature)}, if ${slip.how}.`,
        alike: { cause: `${feature.id} ${slip.how}`, name: part.name },
      },
    );
}

export const slippedSizes: Finding = { about: 'size', rests: [], find };
