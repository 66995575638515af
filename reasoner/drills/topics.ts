import type { Family } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { asId, type FamilyId } from '../ids.ts';
import { descentGround } from './descent-ground.ts';
import { type DrillKind, type DrillLevel, drillKinds, drillLevels, type Topic, type TopicId } from './drill.ts';
import { modelsOf, namingSlots } from './units.ts';

/** Which families and kinds a course is about, null: all of them; and at which level, *measured* where it is not said. */
export interface Scope {
  readonly families: readonly FamilyId[] | null;
  readonly kinds: readonly DrillKind[] | null;
  readonly level?: DrillLevel;
}

export const everything: Scope = { families: null, kinds: null };

/**
 * Every topic of the atlas within a scope, in the order they are taken up: one of each kind in turn, families in the atlas's order.
 * Two families are told apart where a line joins them or one maker made both; of families pinned by name, every two.
 */
export const topicsOf = (atlas: CompiledAtlas, { families, kinds, level = 'measured' }: Scope = everything): Topic[] => {
  const inScope = atlas.data.families.filter(({ id }) => families === null || families.includes(id));
  const wanted = drillKinds.filter((kind) => kinds === null || kinds.includes(kind));
  return inTurn(wanted.map((kind) => ofKind(atlas, kind, level, inScope, families !== null)));
};

const inTurn = <T>(lists: readonly (readonly T[])[]): T[] => {
  const longest = Math.max(0, ...lists.map(({ length }) => length));
  return Array.from({ length: longest }, (_, i) => lists.flatMap((list) => list.slice(i, i + 1))).flat();
};

/** What is learnt by eye is another topic than what is learnt with instruments: it is asked again at times of its own. */
const headOf = (kind: DrillKind, level: DrillLevel, of: string): { readonly id: TopicId; readonly level: DrillLevel } => ({
  id: asId<TopicId>(`${kind}${level === 'by eye' ? '-by-eye' : ''}:${of}`),
  level,
});

const ofKind = (atlas: CompiledAtlas, kind: DrillKind, level: DrillLevel, families: readonly Family[], pinned: boolean): Topic[] => {
  const built = families.filter((family) => modelsOf(atlas, family.id).length > 0);
  switch (kind) {
    case 'looks': {
      const pairs = built.flatMap((a, i) =>
        built.slice(i + 1).flatMap((b) => (pinned || related(a, b) ? [topicOfLooks(level, a, b)] : [])),
      );
      const within = built
        .filter(({ id: family }) => modelsOf(atlas, family).length > 1)
        .map((family) => topicOfLooks(level, family, family));
      return inTurn([pairs, within]);
    }
    case 'swapped':
      return inTurn(
        built.map((family) => {
          const naming = namingSlots(atlas, family.id);
          return atlas.data.slots.flatMap((slot): Topic[] =>
            slot.group !== 'plate' && naming.has(slot.id)
              ? [
                  {
                    kind,
                    ...headOf(kind, level, `${family.id}/${slot.id}`),
                    text: `the ${slot.name} of ${article(family.name)}`,
                    family: family.id,
                    slot: slot.id,
                  },
                ]
              : [],
          );
        }),
      );
    case 'name':
      return built.map((family) => ({
        kind,
        ...headOf(kind, level, family.id),
        text: `names the parts of ${article(family.name)} can carry`,
        family: family.id,
      }));
    case 'check':
      return built.map((family) => ({
        kind,
        ...headOf(kind, level, family.id),
        text: `the next check on ${article(family.name)}`,
        family: family.id,
      }));
    case 'descent':
      return families
        .filter((family) => descentGround(atlas, family.id).length >= 3)
        .map((family) => ({ kind, ...headOf(kind, level, family.id), text: `the line of ${family.name}`, family: family.id }));
    case 'grammar':
      return atlas.data.makers
        .filter((maker) => maker.grammar !== null && families.some((family) => family.maker === maker.id))
        .map((maker) => ({ kind, ...headOf(kind, level, maker.id), text: `how ${maker.name} makes its names`, maker: maker.id }));
  }
};

const topicOfLooks = (level: DrillLevel, a: Family, b: Family): Topic => ({
  kind: 'looks',
  ...headOf('looks', level, `${a.id}+${b.id}`),
  text: a === b ? `the models of ${a.name} told apart` : `${a.name} and ${b.name} told apart`,
  families: [a.id, b.id],
});

const related = (a: Family, b: Family): boolean => {
  const line = (from: Family, to: Family): boolean => [...from.descendsFrom, ...from.succeeds, ...from.patternOf].includes(to.id);
  return line(a, b) || line(b, a) || (a.maker !== null && a.maker === b.maker);
};

const article = (name: string): string => `${/^[aeiou]/i.test(name) ? 'an' : 'a'} ${name}`;

/** A topic by its id, or undefined where the atlas has none such. */
export const topicOf = (atlas: CompiledAtlas, topic: TopicId): Topic | undefined => {
  let known = tables.get(atlas);
  if (known === undefined) {
    // Every two families make a topic where they are pinned.
    const families = atlas.data.families.map((family) => family.id);
    const pairs = drillLevels.flatMap((level) => topicsOf(atlas, { families, kinds: null, level }));
    known = new Map(pairs.map((each) => [each.id, each]));
    tables.set(atlas, known);
  }
  return known.get(topic);
};
const tables = new WeakMap<CompiledAtlas, Map<TopicId, Topic>>();
