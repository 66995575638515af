/** A family as its band sees it. `to` null: to the end of the axis. `from` null: its year is not known. */
export interface BandMember {
  readonly id: string;
  readonly from: number | null;
  readonly to: number | null;
  /** Families of the same band it descends from or succeeds. */
  readonly parents: readonly string[];
}

/**
 * The order of a maker's families from top to bottom, for a drawing in which a family is a bar along the years in a row of
 * its own and a line of descent runs down (or up) just before its child begins.
 *
 * Below each family stand its children, the latest born nearest: a line to an earlier child passes later ones before they begin,
 * so where every family has one parent no line crosses a bar. Families with several parents may leave crossings; then single families are moved
 * as long as that lessens them, and what ends up upside down is turned over. The order depends on ids and years alone, not on
 * the order of the input.
 */
export function orderBand(members: readonly BandMember[]): readonly string[] {
  const of = new Map(members.map((member) => [member.id, member]));
  const base = inTreeOrder(members, of);
  const edges = members.flatMap((child) =>
    child.parents.flatMap((id) => {
      const parent = of.get(id);
      return parent === undefined ? [] : [{ parent, child }];
    }),
  );
  return withFewerCrossings(base, of, edges);
}

const byBirth = (a: BandMember, b: BandMember): number =>
  (a.from ?? Number.POSITIVE_INFINITY) - (b.from ?? Number.POSITIVE_INFINITY) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0) || 0;

/** The parent that began last, where there are several: the line to it is the shortest in time. */
const mainParent = (member: BandMember, of: ReadonlyMap<string, BandMember>): BandMember | null => {
  const known = member.parents.flatMap((id) => of.get(id) ?? []).filter((parent) => parent.id !== member.id);
  const dated = known.filter(({ from }) => from !== null && (member.from === null || from <= member.from));
  return [...(dated.length > 0 ? dated : known)].sort(byBirth).at(-1) ?? null;
};

function inTreeOrder(members: readonly BandMember[], of: ReadonlyMap<string, BandMember>): string[] {
  const children = new Map<string | null, BandMember[]>();
  for (const member of [...members].sort(byBirth)) {
    const parent = mainParent(member, of)?.id ?? null;
    children.set(parent, [...(children.get(parent) ?? []), member]);
  }
  const order: string[] = [];
  const seen = new Set<string>();
  const walk = (member: BandMember): void => {
    if (seen.has(member.id)) return;
    seen.add(member.id);
    order.push(member.id);
    const own = children.get(member.id) ?? [];
    const undated = own.filter(({ from }) => from === null);
    for (const child of [...own.filter(({ from }) => from !== null).reverse(), ...undated]) walk(child);
  };
  for (const root of children.get(null) ?? []) walk(root);
  // What only a circle of parents leads to has no root; packs refuse such circles, a drawing must still hold every node.
  for (const member of [...members].sort(byBirth)) walk(member);
  return order;
}

interface Edge {
  readonly parent: BandMember;
  readonly child: BandMember;
}

/** Whether the line to `child` meets the bar of `other` when it passes its row: alive just before the child begins. */
const isInTheWay = (child: BandMember, other: BandMember): boolean =>
  child.from !== null && other.from !== null && other.from < child.from && (other.to === null || child.from <= other.to + 1);

const crossingsOf = (order: readonly string[], of: ReadonlyMap<string, BandMember>, edges: readonly Edge[]): number => {
  const place = new Map(order.map((id, index) => [id, index]));
  let crossings = 0;
  for (const { parent, child } of edges) {
    const [a, b] = [place.get(parent.id) ?? 0, place.get(child.id) ?? 0];
    for (let row = Math.min(a, b) + 1; row < Math.max(a, b); row += 1) {
      const other = of.get(order[row] ?? '');
      if (other !== undefined && isInTheWay(child, other)) crossings += 1;
    }
  }
  return crossings;
};

/** Above this many families a band is left in tree order: moving each past each would take as long as its square. */
const mostMoved = 60;

function withFewerCrossings(base: readonly string[], of: ReadonlyMap<string, BandMember>, edges: readonly Edge[]): readonly string[] {
  let order = [...base];
  let crossings = crossingsOf(order, of, edges);
  if (crossings === 0 || base.length > mostMoved) return base;
  for (let better = true; better && crossings > 0; ) {
    better = false;
    for (const id of base) {
      const rest = order.filter((other) => other !== id);
      for (let at = 0; at <= rest.length; at += 1) {
        const tried = [...rest.slice(0, at), id, ...rest.slice(at)];
        const found = crossingsOf(tried, of, edges);
        if (found >= crossings) continue;
        order = tried;
        crossings = found;
        better = true;
      }
    }
  }
  const turned = [...order].reverse();
  return inversions(turned, base) < inversions(order, base) ? turned : order;
}

/** Pairs that stand the other way round in `base`. */
const inversions = (order: readonly string[], base: readonly string[]): number => {
  const rank = new Map(base.map((id, index) => [id, index]));
  let count = 0;
  for (let i = 0; i < order.length; i += 1) {
    for (let k = i + 1; k < order.length; k += 1) {
      if ((rank.get(order[i] ?? '') ?? 0) > (rank.get(order[k] ?? '') ?? 0)) count += 1;
    }
  }
  return count;
};
