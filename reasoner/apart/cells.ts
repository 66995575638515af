import type { Fact, Feature, Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { PartId, StageId } from '../ids.ts';
import type { Truth } from '../truth.ts';
import { stripDownMinutes } from '../why/strip-down.ts';
import { couldBeRead, type Look, lookOf } from './look.ts';
import type { Subject } from './subject.ts';

/** What a subject may show of one feature. */
export interface Cell {
  /** Different facts over the parts it may hold, each with one part that has it; unknown ones are left out. */
  readonly facts: readonly { readonly fact: Fact; readonly part: PartId }[];
  /** How many of its parts the atlas is silent about, out of how many. */
  readonly silent: number;
  readonly of: number;
}

/** A feature as a check between subjects: three-valued for every pair. */
export interface Check {
  readonly feature: Feature;
  /** Minutes for this check alone, strip-down included. */
  readonly minutes: number;
  readonly cells: readonly Cell[];
  /** By pair, in the order of `pairsOf`: whether the check separates them. */
  readonly separates: readonly Truth[];
}

/** Two subjects by number, the lower first. */
export type Pair = readonly [number, number];

export const pairsOf = (count: number): readonly Pair[] =>
  Array.from({ length: count }, (_, a) => Array.from({ length: count - a - 1 }, (_, i): Pair => [a, a + 1 + i])).flat();

export interface CheckScope {
  /** Whether the nameplate may be read. It speaks for the bearing housing it is riveted to and no more (O5). */
  readonly plate?: boolean;
  /** Whether letters cast or stamped on parts may be read; they may be worn, ground off or copied. Read unless this is false. */
  readonly letters?: boolean;
  /** How far the unit may be taken apart: only features seen at these stages. Every stage where it is left out. */
  readonly stages?: readonly StageId[];
}

/** Features that may be looked at in this scope, in the atlas's order. */
export const featuresIn = (atlas: CompiledAtlas, scope: CheckScope): readonly Feature[] => {
  const plates = new Set(atlas.data.slots.filter(({ group }) => group === 'plate').map(({ id }) => id));
  return atlas.data.features.filter(
    (feature) =>
      (scope.plate === true || !plates.has(feature.slot)) &&
      (scope.letters !== false || feature.kind !== 'mark') &&
      (scope.stages === undefined || scope.stages.includes(feature.stage)),
  );
};

/**
 * Every feature of the scope on which the subjects are not simply alike. A feature *separates* two subjects when no reading could agree with a part of
 * both; it does not when some part of each could be read alike; and where neither is so because the atlas is silent, it is not known.
 */
export const checksBetween = (atlas: CompiledAtlas, subjects: readonly Subject[], scope: CheckScope): readonly Check[] => {
  const pairs = pairsOf(subjects.length);
  const checks: Check[] = [];
  for (const feature of featuresIn(atlas, scope)) {
    atlas.pulse();
    const slot = atlas.slotNumber.get(feature.slot) as number;
    const seen = subjects.map((subject) => seenOf(feature, subject.parts[slot] ?? null));
    const separates = pairs.map(([a, b]) => separated(seen[a] as Seen, seen[b] as Seen));
    const [first, ...rest] = seen as [Seen, ...Seen[]];
    const alike = rest.every(({ key, cell }) => key === first.key && cell.silent === 0) && first.cell.silent === 0;
    const empty = seen.every(({ cell }) => cell.facts.length === 0);
    if (alike || empty) continue;
    const minutes = stripDownMinutes(atlas, [feature.stage]) + feature.minutes;
    checks.push({ feature, minutes, cells: seen.map(({ cell }) => cell), separates });
  }
  return checks;
};

interface Seen {
  readonly cell: Cell;
  readonly looks: readonly Look[];
  readonly key: string;
}

/** A slot nothing is listed for is as silent as a part nothing is known of. */
const seenOf = (feature: Feature, parts: readonly Part[] | null): Seen => {
  const byKey = new Map<string, { readonly fact: Fact; readonly part: PartId; readonly look: Look }>();
  let silent = parts === null ? 1 : 0;
  for (const part of parts ?? []) {
    const fact = part.facts[feature.id];
    const look = lookOf(feature, fact);
    if (fact === undefined || look === null) {
      silent += 1;
      continue;
    }
    const key = JSON.stringify(look);
    if (!byKey.has(key)) byKey.set(key, { fact, part: part.id, look });
  }
  return {
    cell: { facts: [...byKey.values()].map(({ fact, part }) => ({ fact, part })), silent, of: parts?.length ?? 0 },
    looks: [...byKey.values()].map(({ look }) => look),
    key: [...byKey.keys()].sort().join(),
  };
};

const separated = (a: Seen, b: Seen): Truth => {
  if (a.looks.some((one) => b.looks.some((other) => couldBeRead(one, other)))) return 'fails';
  return a.cell.silent > 0 || b.cell.silent > 0 ? 'not known' : 'holds';
};
