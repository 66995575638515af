import type { MachinedAtJoint, MachinedCandidate } from '../answer/verdict.ts';
import type { Part } from '../atlas/atlas.ts';
import type { OperationId } from '../atlas/operation.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import { fitCautions } from '../fits/work/cautions.ts';
import type { ObservationId } from '../ids.ts';
import { capital, list, withArticle } from '../plain/text.ts';
import { partsIn } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { feature } from './conflict-sentence.ts';
import { hasPhrase } from './has-phrase.ts';

/** O2: what was machined, by which readings, and what could have left them so. A part keeps its name after work, and is called machined. */
export const machinedSentence = (unit: Unit, slot: UnitSlot, told: MachinedCandidate['told']): string => {
  const parts = partsIn(slot).map((part) => slot.of.parts[part] as Part);
  const [only] = parts;
  const name = `The ${slot.of.data.name}`;
  const what =
    parts.length === 1 && only !== undefined
      ? `${name} is ${withArticle(only.name)}, machined`
      : `${name} was machined, whichever of the ${parts.length} parts left it is`;
  const why = byOperations(told).map(({ observations, operations }) => {
    const seen = observations.flatMap((id) => unit.sheet.observations.filter((each) => each.id === id));
    return `with ${list(seen.map((each) => hasPhrase(feature(unit, each.feature), each)))}, which ${operationNames(unit, operations)} could have left`;
  });
  const operations = told.flatMap((each) => each.operations);
  return `${what}: it is not made ${why.join(', nor ')}.${turning(unit, operations)}`;
};

/** Readings that the same operations could have left are told together. */
const byOperations = (told: MachinedCandidate['told']) => {
  const operationsOf = new Map<ObservationId, Set<OperationId>>();
  for (const { observations, operations } of told) {
    for (const id of observations) operationsOf.set(id, new Set([...(operationsOf.get(id) ?? []), ...operations]));
  }
  const groups = new Map<string, { readonly observations: ObservationId[]; readonly operations: readonly OperationId[] }>();
  for (const [id, operations] of operationsOf) {
    const key = [...operations].sort().join();
    const group = groups.get(key) ?? { observations: [], operations: [...operations] };
    group.observations.push(id);
    groups.set(key, group);
  }
  return [...groups.values()];
};

/** J1: that one of two parts was machined, or that this one was, because as made nothing that is left goes together. */
export const machinedAtJointSentence = (unit: Unit, { joint, slots, operations }: MachinedAtJoint): string => {
  const names = slots.map((id) => `the ${slotNameOf(unit.atlas, id)}`);
  const who = slots.length === 1 ? `${capital(names[0] ?? '')} was machined` : `${capital(list(names, 'or'))} was machined, or both`;
  const where = unit.atlas.joints.find((each) => each.data.id === joint)?.data.name ?? joint;
  return `${who}: as made, nothing that is left fits at the joint ${where}; ${operationNames(unit, operations)} could have made it fit.${turning(unit, operations)}`;
};

const operationsOf = (unit: Unit, ids: readonly OperationId[]) => (unit.atlas.data.operations ?? []).filter(({ id }) => ids.includes(id));

const operationNames = (unit: Unit, ids: readonly OperationId[]): string =>
  list([...new Set(operationsOf(unit, ids).map(({ name }) => `“${name}”`))], 'or');

/** F5: a part that turns and was machined is out of balance until somebody has shown otherwise. */
const turning = (unit: Unit, ids: readonly OperationId[]): string =>
  operationsOf(unit, ids).some((each) => each.turning) ? ` ${fitCautions.balance}` : '';
