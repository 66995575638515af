import type { NameRule } from '../names/name-rule.ts';
import { makersPlate, plateHolders } from '../plate/plate-on-pattern.ts';
import { partsIn, type Unit } from '../unit/unit.ts';
import type { Name } from '../verdict/verdict.ts';
import { list } from './phrases.ts';

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
