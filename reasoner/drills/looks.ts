import type { Model } from '../atlas/atlas.ts';
import type { ModelId } from '../ids.ts';
import { judge } from '../names/status.ts';
import { list } from '../plain/text.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { unitOf } from '../unit/unit.ts';
import type { Draw } from './draw.ts';
import type { Choice, Drill, Ground, Judgement, Kind, Topic } from './drill.ts';
import {
  builtAs,
  foundSheet,
  looksOf,
  mayFill,
  modelName,
  modelsOf,
  nameToCarry,
  observed,
  partAt,
  shownOf,
  subjectOfModel,
  tellsOut,
} from './units.ts';
import { eachOnce, reasonsAgainst, showingsOf } from './why-ruled-out.ts';

type LooksTopic = Extract<Topic, { kind: 'looks' }>;

/** Choices offered at most, and looks that tell nothing put among those that do. */
const [mostChoices, besides] = [4, 4];

/**
 * Name this from its looks: a unit as some model was built, seen without its letters; which of these models can it be? Right is every choice
 * whose name is not ruled out for what was seen (N1). Of those offered one is not.
 */
export const looks: Kind<LooksTopic> = {
  make: (ground, topic, draw) => {
    const [one, other] = topic.families;
    const families = draw.chance(0.5) ? [one, other] : [other, one];
    const model = draw.any(modelsOf(ground, families[0] as LooksTopic['families'][0]));
    const parts = model === undefined ? null : builtAs(ground, model, draw);
    if (model === undefined || parts === null) return null;
    const all = ground.slots.flatMap(({ data: slot, number }) => {
      const part = parts[number] ?? null;
      if (part === null || slot.group === 'plate') return [];
      return looksOf(ground, slot.id, topic.level).flatMap((feature) => {
        const seen = observed(feature, partAt(ground, number, part).facts[feature.id], draw, topic.level);
        return seen === null ? [] : [{ feature, seen, stage: ground.stages.get(feature.stage)?.number ?? 0 }];
      });
    });
    // What is seen soonest is looked at first, and a size taken by eye after all that is seen; else as it falls.
    const late = ({ feature }: (typeof all)[number]): number => Number(!mayFill(feature, topic.level));
    const offered = draw.shuffled(all).sort((a, b) => late(a) - late(b) || a.stage - b.stage);
    const rivals = rivalsOf(ground, model, families[1] as LooksTopic['families'][0], draw);
    const standing = new Map(rivals.map((rival) => [rival.id, nameToCarry(ground, rival)]));
    const looked: typeof offered = [];
    for (const look of offered) {
      if (standing.size === 0) break;
      const out = [...standing].filter(([, rule]) => tellsOut(ground, rule, look.feature, look.seen));
      if (out.length === 0) continue;
      looked.push(look);
      for (const [id] of out) standing.delete(id);
    }
    const wrong = rivals.filter(({ id }) => !standing.has(id));
    if (wrong.length === 0 || looked.length === 0) return null;
    const slots = new Set(looked.map(({ seen }) => seen.slot));
    const beside = offered.filter((look) => !looked.includes(look) && mayFill(look.feature, topic.level));
    const filling = [...beside.filter(({ seen }) => slots.has(seen.slot)), ...beside].slice(0, besides);
    const observations = inOrder(
      ground,
      [...new Set([...looked, ...filling])].map(({ seen }) => seen),
    );
    const sheet = foundSheet(observations);
    const choices = draw.shuffled([model, ...wrong]).map((each) => choiceOf(ground, each));
    return {
      question: 'No letters to be read. Which of these can it be, by its looks?',
      sheet,
      shown: shownOf(ground, observations),
      respond: { kind: 'one' },
      choices,
    };
  },

  judge: (ground, drill, [chosen]) => judgeModels(ground, drill, drill.sheet as Sheet, chosen as string),
};

/** Models to be taken for it: first of the other family, then of its own. */
const rivalsOf = (ground: Ground, model: Model, other: Model['family'], draw: Draw): Model[] => {
  const others = draw.shuffled(modelsOf(ground, other).filter(({ id }) => id !== model.id));
  const own = draw.shuffled(modelsOf(ground, model.family).filter(({ id }) => id !== model.id && !others.some((each) => each.id === id)));
  return [...others.slice(0, 2), ...own.slice(0, 1), ...others.slice(2), ...own.slice(1)].slice(0, mostChoices - 1);
};

const choiceOf = (ground: Ground, model: Model): Choice => ({
  id: model.id,
  text: modelName(ground, model),
  subject: subjectOfModel(ground, model),
});

/** Slot by slot as the atlas has them, and within a slot as its features are. */
export const inOrder = (ground: Ground, observations: readonly Observation[]): Observation[] => {
  const place = new Map(ground.data.features.map(({ id }, i) => [id, i]));
  return [...observations].sort((a, b) => (place.get(a.feature) as number) - (place.get(b.feature) as number));
};

const judgeModels = (ground: Ground, drill: Drill, sheet: Sheet, chosen: string): Judgement => {
  const unit = unitOf(ground, sheet);
  const judged = drill.choices.map((choice) => {
    const model = ground.models.get(choice.id as ModelId) as Model;
    const rule = nameToCarry(ground, model);
    return { choice, rule, model, out: judge(unit, rule).status === 'ruled out' };
  });
  const mine = judged.find(({ choice }) => choice.id === chosen) as (typeof judged)[number];
  const accepted = judged.filter(({ out }) => !out).map(({ choice }) => choice);
  const [first] = accepted;
  const against = mine.out ? [mine] : judged.filter(({ out }) => out);
  const reasons = against.flatMap((each) =>
    reasonsAgainst(unit, each.rule, drill.level)
      .slice(0, mine.out ? 3 : 1)
      .map((reason) => ({ ...each, reason })),
  );
  const lead = mine.out
    ? `It cannot be ${mine.choice.text}.`
    : `${list(accepted.map(({ text }) => text))} ${accepted.length === 1 ? 'agrees' : 'agree'} with everything seen; the others do not.`;
  return {
    right: !mine.out,
    accepted: accepted.map(({ id }) => [id]),
    sentences: [lead, ...new Set(reasons.map(({ reason }) => reason.sentence))],
    showings: eachOnce(
      reasons
        .slice(0, mine.out ? 3 : 2)
        .flatMap(({ reason, rule, choice }) => showingsOf(unit, rule, reason, { seen: 'as shown', named: choice.text })),
    ),
    confused: mine.out && first !== undefined ? { asked: first.subject, answered: mine.choice.subject } : null,
  };
};
