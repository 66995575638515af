import { type Pairing, partnersIn } from '../algebra/pairing.ts';
import type { Rung } from '../answer/verdict.ts';
import type { Joint, Part } from '../atlas/atlas.ts';
import { type CompiledAtlas, type CompiledJoint, slotAt } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import type { JointId, NameId, PartId, SlotId } from '../ids.ts';

/** How the demands of a name on one slot differ. */
export interface DemandChange {
  readonly slot: SlotId;
  /** Parts that belong there after the change and did not before, and the reverse. */
  readonly more: readonly PartId[];
  readonly fewer: readonly PartId[];
  /** Whether the list is open-ended, or the slot is asked after at all, is another than before (A7). */
  readonly otherwise: boolean;
}

export interface NameChange {
  readonly id: NameId;
  readonly text: string;
  readonly rung: Rung;
  readonly how: 'new' | 'gone' | 'altered';
  /** Of an altered one. */
  readonly demands: readonly DemandChange[];
}

/** What a part that is new, or reads otherwise, meets at a joint. What is not known counts as meeting: it does not fail. */
export interface MeetingChange {
  readonly joint: JointId;
  readonly part: PartId;
  readonly more: readonly PartId[];
  readonly fewer: readonly PartId[];
}

/** What a change of the atlas changes in what is concluded from it (H3). */
export interface WouldChange {
  readonly names: readonly NameChange[];
  readonly meetings: readonly MeetingChange[];
}

/** Compares what two atlases conclude, name by name, and joint by joint for the parts that differ. */
export const wouldChange = (before: CompiledAtlas, after: CompiledAtlas): WouldChange => ({
  names: nameChanges(before, after),
  meetings: meetingChanges(before, after),
});

const nameChanges = (before: CompiledAtlas, after: CompiledAtlas): NameChange[] => {
  const was = new Map(before.names.map((rule) => [rule.name.id, rule]));
  const is = new Map(after.names.map((rule) => [rule.name.id, rule]));
  const changes: NameChange[] = [];
  for (const [id, rule] of is) {
    const old = was.get(id);
    if (old === undefined) changes.push({ ...called(rule), how: 'new', demands: [] });
    else {
      const demands = demandChanges(before, old, after, rule);
      if (demands.length > 0 || old.name.text !== rule.name.text) changes.push({ ...called(rule), how: 'altered', demands });
    }
  }
  for (const [id, rule] of was) if (!is.has(id)) changes.push({ ...called(rule), how: 'gone', demands: [] });
  return changes;
};

const called = ({ name: { id, text, rung } }: NameRule): Pick<NameChange, 'id' | 'text' | 'rung'> => ({ id, text, rung });

interface Demanded {
  readonly parts: ReadonlySet<PartId> | null;
  /** Of an open-ended list, what is known not to belong; null where it is whole. */
  readonly barred: ReadonlySet<PartId> | null;
}

const demandedOf = (atlas: CompiledAtlas, rule: NameRule): ReadonlyMap<SlotId, Demanded> => {
  const idsAt = (slot: number, numbers: ReadonlySet<number> | null | undefined): ReadonlySet<PartId> | null =>
    numbers === null || numbers === undefined ? null : new Set([...numbers].map((n) => (slotAt(atlas, slot).parts[n] as Part).id));
  return new Map(
    rule.demands.map((parts, slot) => [
      slotAt(atlas, slot).data.id,
      { parts: idsAt(slot, parts), barred: idsAt(slot, rule.open.get(slot)) },
    ]),
  );
};

const nothing: Demanded = { parts: null, barred: null };

const demandChanges = (before: CompiledAtlas, old: NameRule, after: CompiledAtlas, rule: NameRule): DemandChange[] => {
  const [was, is] = [demandedOf(before, old), demandedOf(after, rule)];
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((slot): DemandChange[] => {
    const [a, b] = [was.get(slot) ?? nothing, is.get(slot) ?? nothing];
    const { more, fewer } = between(a.parts, b.parts);
    const barred = between(a.barred, b.barred);
    const otherwise =
      (a.parts === null) !== (b.parts === null) ||
      (a.barred === null) !== (b.barred === null) ||
      barred.more.length + barred.fewer.length > 0;
    return more.length + fewer.length > 0 || otherwise ? [{ slot, more, fewer, otherwise }] : [];
  });
};

const between = (a: ReadonlySet<PartId> | null, b: ReadonlySet<PartId> | null): { readonly more: PartId[]; readonly fewer: PartId[] } => ({
  more: [...(b ?? [])].filter((part) => a?.has(part) !== true),
  fewer: [...(a ?? [])].filter((part) => b?.has(part) !== true),
});

const meetingChanges = (before: CompiledAtlas, after: CompiledAtlas): MeetingChange[] => {
  /** A part as far as joints may ask of it. */
  const reads = (part: Part): string => JSON.stringify([part.slot, Object.entries(part.facts).sort(([a], [b]) => (a < b ? -1 : 1))]);
  const differing = new Set<PartId>();
  for (const [id, part] of after.parts) {
    const old = before.parts.get(id);
    if (old === undefined || reads(old) !== reads(part)) differing.add(id);
  }
  const changes: MeetingChange[] = [];
  for (const joint of after.joints) {
    const old = before.joints.find(({ data }) => data.id === joint.data.id);
    const all = old === undefined || !sameJoint(old.data, joint.data);
    for (const [own, other] of [
      [joint.a, joint.b],
      [joint.b, joint.a],
    ] as const) {
      for (const part of slotAt(after, own).parts) {
        if (!all && !differing.has(part.id)) continue;
        // Of two parts that both differ the pair is told once, at the first side.
        const is = partnersOf(after, joint, own, other, part.id);
        const was =
          old === undefined ? null : partnersOf(before, old, own === joint.a ? old.a : old.b, own === joint.a ? old.b : old.a, part.id);
        const { more, fewer } = between(was, is);
        const told = own === joint.a ? [more, fewer] : [more, fewer].map((ids) => ids.filter((id) => !all && !differing.has(id)));
        const [moreTold, fewerTold] = told as [PartId[], PartId[]];
        const here = fewerTold.filter((id) => after.parts.has(id));
        if (moreTold.length + here.length > 0) changes.push({ joint: joint.data.id, part: part.id, more: moreTold, fewer: here });
      }
    }
  }
  return changes;
};

const sameJoint = (a: Joint, b: Joint): boolean => JSON.stringify([a.a, a.b, a.rules]) === JSON.stringify([b.a, b.b, b.rules]);

/** The parts of the other slot that do not fail against this one; null where there is no such part. */
const partnersOf = (atlas: CompiledAtlas, joint: CompiledJoint, own: number, other: number, part: PartId): ReadonlySet<PartId> | null => {
  const [ownSlot, otherSlot] = [slotAt(atlas, own), slotAt(atlas, other)];
  const number = ownSlot.partNumber.get(part);
  if (number === undefined) return null;
  const pairing = atlas.made().space.pairings[joint.number] as Pairing;
  const met = new Set(partnersIn(pairing, own, ownSlot.matingOf[number] as number));
  return new Set(otherSlot.parts.flatMap(({ id }, n) => (met.has(otherSlot.matingOf[n] as number) ? [id] : [])));
};
