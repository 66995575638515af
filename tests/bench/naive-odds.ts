import { type CompiledAtlas, type Sheet, startingAssumptions } from '../../reasoner/index.ts';
import { groundOf } from '../../reasoner/odds/ground.ts';
import { type SlotLikelihood, slotGround, slotLikelihood } from '../../reasoner/odds/slot-likelihood.ts';

/**
 * The same names' chances by plain sums: for every model and every box of names a product over slots, each a sum over all parts of the slot.
 * Nothing is shared between models or set aside, and no check is weighed.
 */
export const naiveRanking = (atlas: CompiledAtlas, sheet: Sheet): Float64Array => {
  const { built, targets } = groundOf(atlas);
  const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
  const slots = atlas.slots.map((slot) =>
    slotLikelihood(
      atlas,
      slotGround(built, slot, sheet.absent.includes(slot.data.id)),
      seen.filter((observation) => observation.slot === slot.data.id),
      startingAssumptions,
    ),
  );
  const sets = targets.demands.map((demands) => demands.map((parts) => new Set(parts)));
  const chances = new Float64Array(targets.all.length);
  let all = 0;
  built.models.forEach((model, at) => {
    const seats = slots.map((_slot, slot) => built.seatOf[slot]?.[at] as number);
    const { stranger } = startingAssumptions;
    const before = model === null ? stranger : (1 - stranger) / (built.models.length - 1);
    all += slots.reduce((product, { total }, slot) => product * (total[seats[slot] as number] as number), before);
    for (const [box, { demands }] of targets.boxes.entries()) {
      let product = before;
      slots.forEach((slot, number) => {
        const asked = demands[number] as number;
        const allowed = asked < 0 ? null : (sets[number]?.[asked] as ReadonlySet<number>);
        let sum = asked < 0 ? (slot.before.unlisted[seats[number] as number] as number) * slot.ofUnlisted : 0;
        slot.slot.parts.forEach((_part, part) => {
          if (allowed === null || (!slot.absent && allowed.has(part))) sum += chanceOf(slot, seats[number] as number, part);
        });
        product *= sum;
      });
      for (let i = targets.weights.from[box] as number; i < (targets.weights.from[box + 1] as number); i += 1) {
        const target = targets.weights.targets[i] as number;
        chances[target] = (chances[target] as number) + (targets.weights.weights[i] as number) * product;
      }
    }
  });
  return chances.map((chance) => chance / all);
};

const chanceOf = ({ slot, seats, before, ofPart }: SlotLikelihood, number: number, part: number): number => {
  const seat = seats[number];
  const fits = seat?.fits.includes(slot.matingOf[part] as number) ? (before.fits[number] as number) : 0;
  const own = seat?.listed.includes(part) ? (before.own[number] as number) : 0;
  return (own + fits + (before.any[number] as number)) * (ofPart[part] as number);
};
