import type { Classes } from '../algebra/pairing.ts';
import { allowedIn } from '../names/allowed.ts';
import { keptFor } from '../plain/kept-for.ts';
import { classesOf, type Group } from '../unit/groups.ts';
import type { UnitSlot } from '../unit/unit.ts';

/** Parts of a slot alike in what they violate. */
export interface Kind {
  /** Labels each of which alone rules them out. */
  readonly violates: readonly number[];
  /** Smallest sets of labels that rule them out together. */
  readonly violatesTogether: readonly (readonly number[])[];
  /** Their mating classes, each once. */
  readonly classes: Classes;
}

/** The parts of a slot by what they violate, the name's demand among it; those that violate least first. */
export const kindsOf = (slot: UnitSlot, demand: ReadonlySet<number> | null, demandLabel: number): readonly Kind[] => {
  const alike = alikeIn(slot.groups);
  if (demand === null || demand.size === slot.of.parts.length) return alike;
  const allowed = allowedIn(slot, demand);
  const kinds = alike.flatMap(({ violates, violatesTogether, groups, classes }): Kind[] => {
    const others = { violates: [...violates, demandLabel], violatesTogether };
    const some = groups.filter((group) => allowed.has(group));
    if (some.length === 0) return [{ ...others, classes }];
    // Of a group of which some parts belong the others need not be told: they go with the same, and violate more.
    const rest = groups.filter((group) => !allowed.has(group));
    const belong = { violates, violatesTogether, classes: classesOf(slot.groups, some) };
    return rest.length === 0 ? [belong] : [belong, { ...others, classes: classesOf(slot.groups, rest) }];
  });
  return kinds.sort((p, q) => weightOf(p) - weightOf(q));
};

const weightOf = ({ violates, violatesTogether }: Pick<Kind, 'violates' | 'violatesTogether'>): number =>
  violates.length + violatesTogether.length;

interface Alike extends Kind {
  readonly groups: readonly number[];
}

/** Groups of one slot by what they violate, those that violate least first. */
const alikeIn = keptFor((groups: readonly Group[]): readonly Alike[] => {
  const kinds = new Map<string, Omit<Alike, 'classes'> & { readonly groups: number[] }>();
  // Groups share what they violate, so that it is written out once.
  const written = new Map<readonly unknown[], string>();
  const text = (all: readonly (number | readonly number[])[], between: string): string => {
    const known = written.get(all) ?? all.join(between);
    written.set(all, known);
    return known;
  };
  for (let group = 0; group < groups.length; group += 1) {
    const { violates, violatesTogether } = groups[group] as Group;
    const key = `${text(violates, ',')}|${text(violatesTogether, '|')}`;
    const kind = kinds.get(key) ?? { violates, violatesTogether, groups: [] };
    if (kind.groups.push(group) === 1) kinds.set(key, kind);
  }
  return [...kinds.values()]
    .map((kind) => ({ ...kind, classes: classesOf(groups, kind.groups) }))
    .sort((p, q) => weightOf(p) - weightOf(q));
});
