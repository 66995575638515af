import type { Conflict } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { StageId } from '../ids.ts';
import type { Unit } from '../unit/unit.ts';

/** What was found, and what it is held against. */
type Found = Pick<Unit, 'atlas' | 'sheet'>;

/**
 * The order of K1, the most telling first. Last what rests on an absence or on the plate: that something is missing, or that a plate is not the one, says nothing
 * of the parts. Before that the unit's own quarrel: it speaks against every name alike. Then fewest members, then least strip-down, and of that the earlier
 * stage. What is alike in all of it is told apart by its members, so that the order entries were made in does not show.
 */
export const inOrderOfK1 = (unit: Found, conflicts: readonly Conflict[]): Conflict[] => {
  const keyed = conflicts.map((conflict) => ({
    conflict,
    keys: [
      reasonKinds.indexOf(kindOfReason(unit, conflict)),
      conflict.members.length,
      conflict.minutes,
      stageNumber(unit.atlas, conflict.stage),
    ],
    members: JSON.stringify(conflict.members),
  }));
  return keyed.sort((a, b) => firstDifference(a.keys, b.keys) || (a.members < b.members ? -1 : 1)).map(({ conflict }) => conflict);
};

const firstDifference = (a: readonly number[], b: readonly number[]): number =>
  a.map((key, i) => key - (b[i] as number)).find((difference) => difference !== 0) ?? 0;

/** What a conflict rests on, as far as its telling goes; the most telling first. */
export const reasonKinds = ['the parts', 'the unit’s own quarrel', 'an absence or the plate'] as const;
export type ReasonKind = (typeof reasonKinds)[number];

/** Of a conflict, be it about a name or the unit’s own. */
export const kindOfReason = (unit: Found, conflict: Conflict): ReasonKind =>
  restsOnAbsenceOrPlate(unit, conflict) ? 'an absence or the plate' : isOwnQuarrel(unit, conflict) ? 'the unit’s own quarrel' : 'the parts';

/** Whether an absence, an observation of a nameplate or a demand on one is among the members. */
const restsOnAbsenceOrPlate = ({ atlas, sheet }: Found, { members }: Conflict): boolean => {
  const plates = new Set(atlas.slots.flatMap(({ data: slot }) => (slot.group === 'plate' ? [slot.id] : [])));
  return members.some((member) => {
    if (member.kind === 'absent') return true;
    if (member.kind === 'joint') return false;
    const slot = member.kind === 'rule' ? member.slot : sheet.observations.find(({ id }) => id === member.observation)?.slot;
    return slot !== undefined && plates.has(slot);
  });
};

/**
 * A conflict that asks for no name and would be one whatever the unit is called. An absent slot is no disagreement of the unit with itself, and what
 * only meets across it is none either.
 */
const isOwnQuarrel = ({ sheet }: Found, { members, slots }: Conflict): boolean =>
  members.every(({ kind }) => kind !== 'rule') && slots.every((slot) => !sheet.absent.includes(slot));

export const stageNumber = (atlas: CompiledAtlas, stage: StageId | null): number =>
  stage === null ? -1 : (atlas.stages.get(stage)?.number ?? -1);
