import { asId, type CompiledAtlas, type Fact, type Feature, type Observation, type Sheet, type SlotId } from '../../../reasoner/index.ts';

/** What is seen of a good example of a part, measured in the middle of its limits; null where nobody knows. */
const seenOf = (fact: Fact | undefined): Pick<Observation, 'value' | 'sure'> | null => {
  switch (fact?.kind) {
    case 'count':
      return { value: { kind: 'count', from: fact.from, to: fact.from }, sure: { kind: 'seen' } };
    case 'measure':
      return { value: { kind: 'measure', value: fact.nominal + (fact.lower + fact.upper) / 2 }, sure: { kind: 'measured', u: 0.01 } };
    case 'choice':
      return { value: { kind: 'choice', option: fact.anyOf[0] as string }, sure: { kind: 'seen' } };
    case 'presence':
      return { value: { kind: 'presence', present: fact.present }, sure: { kind: 'seen' } };
    case 'mark':
      return { value: { kind: 'mark', text: fact.anyOf[0] ?? null }, sure: { kind: 'seen' } };
    default:
      return null;
  }
};

/**
 * A unit of one model looked at through and through: of the part named in every slot everything the atlas knows of it, as read from a good example;
 * and, for each feature in `wrong`, what the atlas knows of the part of another model in its place.
 */
export const wholeUnit = (atlas: CompiledAtlas, model: string, wrong: Readonly<Record<string, string>> = {}): Sheet => {
  const partOf = (of: string, slot: SlotId) => {
    const allowed = atlas.data.models.find(({ id }) => id === of)?.allowed.filter((each) => each.slot === slot) ?? [];
    return atlas.parts.get((allowed.find(({ role }) => role === 'names') ?? allowed[0])?.part ?? asId(''));
  };
  const readOf = ({ id, slot }: Feature): Observation[] => {
    const seen = seenOf(partOf(wrong[id] ?? model, slot)?.facts[id]);
    return seen === null ? [] : [{ id: asId(`o:${id}`), slot, feature: id, ...seen }];
  };
  return {
    id: asId('whole'),
    title: 'A whole unit',
    story: '',
    kind: 'found',
    claimed: atlas.data.models.find(({ id }) => id === model)?.name ?? null,
    claimedMaker: null,
    observations: atlas.data.features.flatMap(readOf),
    absent: [],
    chosen: {},
  };
};
