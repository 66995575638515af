import type { Name } from '../answer/verdict.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { list } from '../plain/text.ts';
import { partsIn } from '../unit/groups.ts';
import { makersPlate, plateHolders } from '../unit/plate-on-pattern.ts';
import type { Unit } from '../unit/unit.ts';

/**
 * A name that stands, as it is said of this unit. That of a pattern core gives no maker's name; where a maker's plate is fixed to its nameless bearing
 * housing the unit bears one all the same, and the words say so (O4).
 */
export const nameInFull = (unit: Unit, { name, demands }: NameRule): Name => {
  if (name.rung !== 'pattern core' && name.rung !== 'pattern family') return name;
  const plate = makersPlate(unit);
  if (plate === null) return name;
  const nameless = plateHolders(unit).some((slot) => {
    const demand = demands[slot.of.number] ?? null;
    const left = partsIn(slot).filter((part) => demand === null || demand.has(part));
    return left.length > 0 && left.every((part) => slot.of.parts[part]?.maker === null);
  });
  if (!nameless) return name;
  const makers = list(
    plate.makers.map((id) => unit.atlas.makers.get(id)?.name ?? id),
    'or',
  );
  return { ...name, text: `${name.text}, bearing a plate of ${makers} that is no proof` };
};
