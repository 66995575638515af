import type { Atlas, Model, PartId, Role } from '../../../reasoner/index.ts';

const naming: readonly Role[] = ['names', 'option'];
const anyRole: readonly Role[] = ['names', 'option', 'service'];

/** The graph questions answered again, from the atlas as plain lists: sharing no code with the store. */
export class NaiveGraph {
  readonly #atlas: Atlas;
  readonly #near: ReadonlyMap<string, ReadonlySet<string>>;
  readonly #sitting = new Map<string, Map<string, Role>>();

  constructor(atlas: Atlas) {
    this.#atlas = atlas;
    this.#near = neighboursIn(atlas);
  }

  /** The part and all it supersedes, nearest first. */
  older(part: string): string[] {
    const found = this.#atlas.parts.find((each) => each.id === part);
    return [part, ...(found?.supersedes === undefined ? [] : this.older(found.supersedes))];
  }

  /** Parts that may sit in a slot of a model, as the reasoner's specification says, with their roles. */
  maySit(model: Model, slot: string): Map<string, Role> {
    const kept = this.#sitting.get(`${model.id} ${slot}`);
    if (kept !== undefined) return kept;
    const sitting = new Map<string, Role>();
    this.#sitting.set(`${model.id} ${slot}`, sitting);
    for (const part of this.#atlas.parts.filter((each) => each.slot === slot)) {
      for (const id of this.older(part.id)) {
        const listed = model.allowed.find((each) => each.part === id);
        if (listed !== undefined && !sitting.has(part.id)) sitting.set(part.id, listed.role);
      }
    }
    return sitting;
  }

  sharesCore(model: Model): string[] {
    const core = this.#atlas.slots.filter((slot) => slot.group === 'core').map((slot) => slot.id);
    const named = (of: Model, slot: string) => of.allowed.some((each) => each.slot === slot && each.role !== 'service');
    if (!core.some((slot) => named(model, slot))) return [];
    return this.#atlas.models
      .filter((other) => other.id !== model.id)
      .filter((other) =>
        core
          .filter((slot) => named(model, slot) || named(other, slot))
          .every((slot) => [...this.maySit(model, slot).keys()].some((part) => this.maySit(other, slot).has(part))),
      )
      .map((other) => other.id);
  }

  /** Least number of links between families by everything but the maker and free replacements; null when no chain leads there. */
  distance(a: string, b: string): number | null {
    const steps = new Map([[a, 0]]);
    for (const at of steps.keys()) {
      for (const next of this.#near.get(at) ?? []) if (!steps.has(next)) steps.set(next, (steps.get(at) ?? 0) + 1);
    }
    return steps.get(b) ?? null;
  }

  ancestors(family: string): Set<string> {
    const found = new Set<string>();
    const walk = (id: string): void => {
      const at = this.#atlas.families.find((each) => each.id === id);
      for (const up of [...(at?.descendsFrom ?? []), ...(at?.succeeds ?? [])]) {
        if (found.has(up)) continue;
        found.add(up);
        walk(up);
      }
    };
    walk(family);
    return found;
  }
}

const neighboursIn = (atlas: Atlas): Map<string, Set<string>> => {
  const near = new Map<string, Set<string>>(atlas.families.map((family) => [family.id, new Set()]));
  const join = (x: string, y: string): void => {
    if (x === y) return;
    near.get(x)?.add(y);
    near.get(y)?.add(x);
  };
  for (const family of atlas.families) {
    for (const other of [...family.descendsFrom, ...family.succeeds, ...family.patternOf]) join(family.id, other);
  }
  const groupOf = new Map(atlas.slots.map((slot) => [slot.id, slot.group]));
  const listing = (part: PartId, roles: readonly Role[]) =>
    atlas.models.filter((model) => model.allowed.some((each) => each.part === part && roles.includes(each.role)));
  for (const part of atlas.parts) {
    if (groupOf.get(part.slot) !== 'plate') {
      const holders = listing(part.id, naming);
      for (const x of holders) for (const y of holders) join(x.family, y.family);
    }
    if (part.patternOf !== undefined) {
      for (const x of listing(part.id, anyRole)) for (const y of listing(part.patternOf, anyRole)) join(x.family, y.family);
    }
  }
  for (const model of atlas.models) {
    const pattern = atlas.models.find((other) => other.id === model.patternOf);
    if (pattern !== undefined) join(model.family, pattern.family);
  }
  return near;
};
