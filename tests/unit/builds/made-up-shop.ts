import type { BuildConstraints } from '../../../reasoner/builds/completion.ts';
import type { Atlas, FeatureId, Operation, Rates, Sheet, SlotId } from '../../../reasoner/index.ts';
import type { Dice } from '../../oracle/dice.ts';

const source = 'made-up' as Operation['source'];

/** The atlas with a shop: for many pilots a cut on either side, for many choices a face made anew, and prices for most parts. */
export const withShop = (dice: Dice, atlas: Atlas): Atlas => ({
  ...atlas,
  operations: atlas.joints.flatMap(({ id, rules }) =>
    rules.flatMap((rule, i): Operation[] => {
      const slotOf = (feature: FeatureId) => atlas.features.find((each) => each.id === feature)?.slot as SlotId;
      // Quarters of an hour and halves of a crown are exact in binary, so that sums agree in any order.
      const made = (feature: FeatureId, what: string, does: Operation['does']): Operation => ({
        id: `${what}-${id}-${i}` as Operation['id'],
        name: `${what} ${id} ${i}`,
        slot: slotOf(feature),
        does,
        takes: [],
        hours: dice.whole(1, 12) / 4,
        turning: false,
        cautions: [],
        source,
      });
      const cut = (feature: FeatureId, way: 'larger' | 'smaller'): Operation =>
        made(feature, way, {
          kind: 'cut',
          cuts: [
            {
              feature,
              way,
              most: dice.one([0.5, 1.25, 3]),
              holds: { kind: 'tolerance', tolerance: dice.one([0.0625, 0.125]) },
              metal: wallOf(dice, atlas, slotOf(feature)),
              moves: [],
            },
          ],
        });
      if (rule.kind === 'pilot') {
        return [...(dice.often(60) ? [cut(rule.recess, 'larger')] : []), ...(dice.often(40) ? [cut(rule.spigot, 'smaller')] : [])];
      }
      if (rule.kind === 'same' && dice.often(35)) {
        return [
          made(rule.a, 'remake', {
            kind: 'remake',
            offers: [{ feature: rule.a, kind: 'choice', anyOf: dice.some(['plain', 'stepped', 'ribbed'], 2) }],
          }),
        ];
      }
      return [];
    }),
  ),
  rates: dice.often(75) ? [ratesOf(dice, atlas)] : [],
});

/** Sometimes a cut eats into some other size of its part, which two cuts may share. */
const wallOf = (dice: Dice, atlas: Atlas, slot: SlotId) => {
  const walls = atlas.features.filter((feature) => feature.slot === slot && feature.kind === 'measure' && feature.port === undefined);
  return walls.length > 0 && dice.often(50) ? [{ feature: dice.one(walls).id, per: dice.one([1, 2] as const), leaves: 9 }] : [];
};

const ratesOf = (dice: Dice, atlas: Atlas): Rates => ({
  id: 'made-up-rates' as Rates['id'],
  name: 'made-up rates',
  money: 'crowns',
  hour: 40,
  parts: atlas.parts.filter(() => dice.often(85)).map(({ id }) => ({ part: id, price: dice.whole(1, 60) / 2 })),
  source,
});

/** The unit's sheet as a start on paper: some slots filled, what was seen of it kept. */
export const startFrom = (dice: Dice, atlas: Atlas, sheet: Sheet): Sheet => ({
  ...sheet,
  kind: 'planned',
  observations: sheet.observations.filter(() => dice.often(40)),
  chosen: Object.fromEntries(
    atlas.slots
      .filter(({ id }) => !sheet.absent.includes(id) && dice.often(35))
      .map(({ id }) => [id, dice.one(atlas.parts.filter(({ slot }) => slot === id)).id]),
  ),
});

export const someConstraints = (dice: Dice, atlas: Atlas): BuildConstraints => {
  const stock = atlas.parts.filter(() => dice.often(30)).map(({ id }) => id);
  return {
    mayLeave: dice.one(['nothing', 'measuring', 'unknowns'] as const),
    ...(dice.often(30) ? { atMost: dice.whole(0, 2) } : {}),
    ...(dice.often(15) ? { maker: dice.one(atlas.makers).id } : {}),
    ...(dice.often(40) ? { stock } : {}),
  };
};
