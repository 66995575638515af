import { type CheckScope, featuresIn } from '../apart/cells.ts';
import { type Look, lookOf } from '../apart/look.ts';
import { type Subject, subjectsOf } from '../apart/subject.ts';
import type { Feature, Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FamilyId, ModelId } from '../ids.ts';
import { stagesFor } from '../why/strip-down.ts';
import type { KeyCheck, KeyProblem, KeySubject } from './problem.ts';

/** What a key is asked for: to the models or only to the families, of the whole atlas or of some families, with which checks. */
export interface KeyAsked {
  readonly level: 'models' | 'families';
  /** Only models of these; all where it is left out. */
  readonly families?: readonly FamilyId[];
  readonly scope: CheckScope;
  /** How many of each model to every one of another; 1 where a model is not named. */
  readonly odds?: Readonly<Record<ModelId, number>>;
}

export interface NamedProblem {
  readonly problem: KeyProblem;
  /** What a label stands for. */
  readonly labels: readonly { readonly id: ModelId | FamilyId; readonly name: string }[];
  /** The feature of each check. */
  readonly features: readonly Feature[];
}

/** The atlas as a key's problem. Parts that look alike to every check in scope are one kind; a slot a model lists nothing for tells nothing of it. */
export const problemOf = (atlas: CompiledAtlas, asked: KeyAsked): NamedProblem => {
  const models = atlas.data.models.filter(({ family }) => asked.families === undefined || asked.families.includes(family));
  const subjects = subjectsOf(
    atlas,
    models.map(({ id }) => ({ kind: 'model', id })),
  ).filter((subject) => subject !== null);
  const labels =
    asked.level === 'models'
      ? subjects.map(({ ref, name }) => ({ id: ref.id as ModelId, name }))
      : subjectsOf(
          atlas,
          [...new Set(models.map(({ family }) => family))].map((id) => ({ kind: 'family', id })),
        )
          .filter((subject) => subject !== null)
          .map(({ ref, name }) => ({ id: ref.id as FamilyId, name }));
  const features = featuresIn(atlas, asked.scope);
  const kinds = atlas.slots.map((slot) =>
    kindsOf(
      features.filter((feature) => feature.slot === slot.data.id),
      partsIn(subjects, slot.number),
    ),
  );
  const stageNumber = new Map(atlas.data.stages.map(({ id }, number) => [id, number]));
  const checks = features.flatMap((feature): { readonly feature: Feature; readonly check: KeyCheck }[] => {
    const slot = atlas.slotNumber.get(feature.slot) as number;
    const looks = kinds[slot]?.looks.get(feature.id) ?? [];
    if (new Set(looks.map((look) => JSON.stringify(look))).size < 2) return [];
    const step = feature.kind === 'measure' ? (feature.resolution ?? 0) : feature.kind === 'count' ? 0.5 : 0;
    return [{ feature, check: { slot, minutes: feature.minutes, stage: stageNumber.get(feature.stage) as number, looks, step } }];
  });
  const odds = models.map(({ id }) => asked.odds?.[id] ?? 1);
  const wrong = odds.find((one) => !(one > 0 && one < Number.POSITIVE_INFINITY));
  if (wrong !== undefined) throw new RangeError(`odds of a model are a number greater than zero; found ${wrong}`);
  const all = odds.reduce((sum, one) => sum + one, 0);
  return {
    labels,
    features: checks.map(({ feature }) => feature),
    problem: {
      labels: labels.length,
      kinds: kinds.map(({ count }) => count),
      checks: checks.map(({ check }) => check),
      pulse: atlas.pulse,
      stages: atlas.data.stages.map(({ id, minutes }) => ({
        minutes,
        needs: [...stagesFor(atlas, [id])].map((stage) => stageNumber.get(stage) as number),
      })),
      subjects: subjects.map((subject, i): KeySubject => {
        const model = models[i] as (typeof models)[number];
        return {
          label: labels.findIndex(({ id }) => id === (asked.level === 'models' ? model.id : model.family)),
          odds: (odds[i] as number) / all,
          holds: kinds.map(({ kindOf }, slot) => heldOf(subject.parts[slot] ?? null, kindOf)),
        };
      }),
    },
  };
};

const partsIn = (subjects: readonly Subject[], slot: number): readonly (readonly Part[] | null)[] =>
  subjects.map(({ parts }) => parts[slot] ?? null);

interface Kinds {
  readonly count: number;
  readonly kindOf: (part: Part | null) => number;
  /** By feature, by kind. */
  readonly looks: ReadonlyMap<string, readonly (Look | null)[]>;
}

const kindsOf = (features: readonly Feature[], lists: readonly (readonly Part[] | null)[]): Kinds => {
  const numbers = new Map<string, number>();
  const ofPart = new Map<string, number>();
  const looks = new Map<string, (Look | null)[]>(features.map(({ id }) => [id, []]));
  const shared = new Map<string, Look | null>();
  const number = (part: Part | null): number => {
    const known = part === null ? undefined : ofPart.get(part.id);
    if (known !== undefined) return known;
    // Equal looks are one object, so that parts that look alike are seen to at once.
    const own = features.map((feature) => {
      const look = lookOf(feature, part?.facts[feature.id]);
      const text = JSON.stringify(look);
      if (!shared.has(text)) shared.set(text, look);
      return shared.get(text) ?? null;
    });
    const key = JSON.stringify(own);
    let kind = numbers.get(key);
    if (kind === undefined) {
      kind = numbers.size;
      numbers.set(key, kind);
      features.forEach(({ id }, i) => {
        looks.get(id)?.push(own[i] ?? null);
      });
    }
    if (part !== null) ofPart.set(part.id, kind);
    return kind;
  };
  for (const list of lists) for (const part of list ?? [null]) number(part);
  return { count: numbers.size, kindOf: number, looks };
};

const heldOf = (
  parts: readonly Part[] | null,
  kindOf: (part: Part | null) => number,
): readonly { readonly kind: number; readonly odds: number }[] => {
  const list = parts ?? [null];
  const odds = new Map<number, number>();
  for (const part of list) {
    const kind = kindOf(part);
    odds.set(kind, (odds.get(kind) ?? 0) + 1 / list.length);
  }
  return [...odds].map(([kind, one]) => ({ kind, odds: one }));
};
