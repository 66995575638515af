import type { Chain, Feature, FeatureId, FeatureKind, Operation, Rates, SlotId, Warmth } from '../../reasoner/index.ts';
import type { At, Faults, Place } from '../read/faults.ts';
import type { Lookups } from './lookups.ts';

/** Features of the operation's slot, of the kinds it works on. */
export const checkOperation = (operation: Operation, at: At, find: Lookups, faults: Faults): void => {
  if (find.slot.get(operation.slot) === undefined) return;
  const check: Check = (id, kinds, place) => featureOf(find, faults, id, operation.slot, kinds, place);
  operation.takes.forEach(({ feature, anyOf }, k) => {
    const known = check(feature, ['choice'], at(['takes', k, 'feature']));
    if (known !== undefined) checkOptions(known, anyOf, (n) => at(['takes', k, 'anyOf', n]), faults);
  });
  checkDoing(operation, check, (...path) => at(path), faults);
};

export const checkChain = (chain: Chain, at: At, find: Lookups, faults: Faults): void => {
  chain.links.forEach(({ feature }, k) => {
    featureOf(find, faults, feature, null, ['measure'], at(['links', k, 'feature']));
  });
};

/** @param metals whether any metal is known; without one, what the options of a choice stand for is not asked */
export const checkWarmth = (warmth: Warmth, at: At, find: Lookups, faults: Faults, metals: boolean): void => {
  const joint = find.joint.get(warmth.joint);
  const ends = joint === undefined ? [] : [find.port.get(joint.a)?.slot, find.port.get(joint.b)?.slot];
  warmth.sides.forEach(({ slot, metal, turns }, k) => {
    if (find.slot.find(slot, at(['sides', k, 'slot']), faults) === undefined) return;
    if (joint !== undefined && !ends.includes(slot)) faults.add(at(['sides', k, 'slot']), JSON.stringify(slot), 'a slot of the joint');
    const of = featureOf(find, faults, metal, slot, ['choice'], at(['sides', k, 'metal']));
    const unknown = of?.options?.find(({ id }) => find.metal.get(id) === undefined);
    if (unknown !== undefined && metals)
      faults.add(at(['sides', k, 'metal']), `the option ${JSON.stringify(unknown.id)}, which is no metal`, 'a choice among metals');
    if (turns?.bore !== undefined) featureOf(find, faults, turns.bore, slot, ['measure'], at(['sides', k, 'turns', 'bore']));
  });
};

export const checkRates = (rates: Rates, at: At, _find: Lookups, faults: Faults): void => {
  const seen = new Set<string>();
  rates.parts.forEach(({ part }, k) => {
    if (seen.has(part)) faults.add(at(['parts', k, 'part']), `${JSON.stringify(part)} a second time`, 'every part once');
    seen.add(part);
  });
};

type Check = (id: FeatureId, kinds: readonly FeatureKind[], place: Place) => Feature | undefined;

const checkDoing = ({ does }: Operation, check: Check, at: (...path: PropertyKey[]) => Place, faults: Faults): void => {
  switch (does.kind) {
    case 'cut':
      does.cuts.forEach((cut, k) => {
        check(cut.feature, ['measure'], at('does', 'cuts', k, 'feature'));
        for (const [n, { feature }] of cut.metal.entries()) check(feature, ['measure'], at('does', 'cuts', k, 'metal', n, 'feature'));
        for (const [n, { feature }] of cut.moves.entries()) check(feature, ['measure'], at('does', 'cuts', k, 'moves', n, 'feature'));
      });
      return;
    case 'ring':
      check(does.feature, ['measure'], at('does', 'feature'));
      return;
    case 'drill a circle': {
      check(does.count, ['count'], at('does', 'count'));
      check(does.diameter, ['measure'], at('does', 'diameter'));
      check(does.land.inner, ['measure'], at('does', 'land', 'inner'));
      check(does.land.outer, ['measure'], at('does', 'land', 'outer'));
      const bolt = check(does.bolt, ['choice'], at('does', 'bolt'));
      if (bolt !== undefined) {
        const bolts = Object.keys(does.holes);
        checkOptions(bolt, bolts, (n) => at('does', 'holes', bolts[n] as string), faults);
      }
      return;
    }
    case 'remake':
      does.offers.forEach((offer, k) => {
        const known = check(offer.feature, [offer.kind], at('does', 'offers', k, 'feature'));
        if (known !== undefined && offer.kind === 'choice')
          checkOptions(known, offer.anyOf, (n) => at('does', 'offers', k, 'anyOf', n), faults);
      });
  }
};

/** The feature, where it is of the slot (null: of any) and of one of the kinds; otherwise undefined, with a fault. */
/** The feature where it is of the slot and of one of the kinds; otherwise none, and a fault. */
export const featureOf = (
  find: Lookups,
  faults: Faults,
  id: FeatureId,
  slot: SlotId | null,
  kinds: readonly FeatureKind[],
  place: Place,
): Feature | undefined => {
  const feature = find.feature.find(id, place, faults);
  if (feature === undefined) return undefined;
  if (slot !== null && feature.slot !== slot) {
    faults.add(place, `a feature of ${feature.slot}`, `a feature of ${slot}`);
    return undefined;
  }
  if (kinds.includes(feature.kind)) return feature;
  faults.add(place, `the ${feature.kind} ${JSON.stringify(id)}`, `a ${kinds.join(' or ')}`);
  return undefined;
};

const checkOptions = (feature: Feature, options: readonly string[], placeOf: (index: number) => Place, faults: Faults): void => {
  const known = feature.options?.map(({ id }) => id) ?? [];
  options.forEach((option, index) => {
    if (!known.includes(option)) faults.add(placeOf(index), JSON.stringify(option), known.join(' or '));
  });
};
