import type { Family, Model, Part } from '../atlas/atlas.ts';
import { plannedUnit } from '../builds/planned-unit.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { asId, type ModelId, type NameId, type PartId, type SheetId, type SlotId } from '../ids.ts';
import type { Judged } from '../names/demand-table.ts';
import { honestOf, ladderOf } from '../names/ladder.ts';
import { judge } from '../names/status.ts';
import { blankSheet } from '../plain/blank-sheet.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { Unit } from '../unit/unit.ts';
import type { Draw } from './draw.ts';
import type { Choice, Drill, DrillLevel, Ground, Judgement, Kind, Showing, Subject, Topic } from './drill.ts';
import { builtAs, goesIn, listedFor, looksOf, mayFill, modelsOf, partAt } from './units.ts';

type NameTopic = Extract<Topic, { kind: 'name' }>;

/** What was done to the unit before it is shown. */
const stories = ['as built', 'an option', 'a service part', 'a stranger’s housing', 'no housings', 'a stranger in the core'] as const;

/**
 * Which name can these parts carry: a unit whose parts are all known by name. Right is the highest name of the ladder that stands
 * (N4); of several at the same height each.
 */
export const name: Kind<NameTopic> = {
  make: (ground, topic, draw) => {
    const model = draw.any(modelsOf(ground, topic.family));
    const built = model === undefined ? null : builtAs(ground, model, draw);
    if (model === undefined || built === null) return null;
    const parts = told(ground, model, [...built], draw.pick(stories), draw);
    if (parts === null) return null;
    const unit = plannedUnit(ground, buildOf(ground, parts), new Set());
    const ladder = ladderOf(unit);
    const honest = honestOf(ladder);
    const right = draw.any(honest);
    if (right === undefined) return null;
    const wrong = distractors(ground, ladder.all(), honest, unit, model, draw);
    if (wrong.length < 2) return null;
    const choices = draw
      .shuffled([right, ...wrong])
      .map(({ rule }): Choice => ({ id: rule.name.id, text: rule.name.text, subject: subjectOf(ground, rule) }));
    return {
      question: 'These are its parts. What is the most that may be said of it?',
      sheet: unit.sheet,
      shown: ground.slots.flatMap(({ data: slot, number }) => {
        const part = parts[number] ?? null;
        if (part === null) return [];
        const { id, name: called, facts } = partAt(ground, number, part);
        return [{ slot: slot.id, part: { id, name: called }, facts, says: [] }];
      }),
      respond: { kind: 'one' },
      choices,
    };
  },

  judge: (ground, drill, [chosen]) => judgeName(ground, drill, chosen as NameId),
};

const told = (
  ground: Ground,
  model: Model,
  parts: (number | null)[],
  story: (typeof stories)[number],
  draw: Draw,
): (number | null)[] | null => {
  const listed = listedFor(ground, model.id);
  const replace = (numbers: readonly number[], may: (slot: number, part: number) => boolean): (number | null)[] | null => {
    for (const slot of draw.shuffled(numbers)) {
      const all = draw.shuffled((ground.slots[slot]?.parts ?? []).map((_, part) => part));
      const found = all.find((part) => part !== parts[slot] && may(slot, part) && goesIn(ground, parts, slot, part));
      if (found === undefined) continue;
      parts[slot] = found;
      return parts;
    }
    return null;
  };
  const filled = ground.slots.filter(({ number }) => (parts[number] ?? null) !== null);
  const inGroup = (group: 'core' | 'housing'): number[] =>
    filled.filter(({ data: slot }) => slot.group === group).map(({ number }) => number);
  const numbers = filled.map(({ number }) => number);
  switch (story) {
    case 'as built':
      return parts;
    case 'an option':
      return replace(numbers, (slot, part) => listed[slot]?.get(part) === 'option');
    case 'a service part': {
      const service = numbers.filter((slot) => [...(listed[slot]?.values() ?? [])].every((role) => role === 'service'));
      return replace(service, (slot, part) => !listed[slot]?.has(part));
    }
    case 'a stranger’s housing':
      return replace(inGroup('housing'), (slot, part) => !listed[slot]?.has(part) && partAt(ground, slot, part).maker !== null);
    case 'no housings': {
      const housings = inGroup('housing');
      if (housings.length === 0) return null;
      for (const slot of housings) parts[slot] = null;
      return parts;
    }
    case 'a stranger in the core':
      return replace(
        inGroup('core'),
        (slot, part) => !listed[slot]?.has(part) && [...(listed[slot]?.values() ?? [])].some((role) => role !== 'service'),
      );
  }
};

/** The parts as a build on paper; a slot nobody has a part for holds nothing. */
const buildOf = (ground: Ground, parts: readonly (number | null)[]): Sheet => {
  const chosen: Record<SlotId, PartId> = {};
  const absent: SlotId[] = [];
  ground.slots.forEach(({ data: slot, number }) => {
    const part = parts[number] ?? null;
    if (part === null) absent.push(slot.id);
    else chosen[slot.id] = partAt(ground, number, part).id;
  });
  return {
    ...blankSheet(asId<SheetId>('drill')),
    kind: 'planned',
    absent,
    chosen,
  };
};

/** Names near enough to be taken for the honest one: of the same model and family and of the parts' own, on whatever rung; none said in the same words. */
const distractors = (
  ground: Ground,
  judged: readonly Judged[],
  honest: readonly Judged[],
  unit: Unit,
  model: Model,
  draw: Draw,
): Judged[] => {
  const inside = new Set<string>(
    Object.values(unit.sheet.chosen).flatMap((id) =>
      ground.data.models.flatMap((each) => (each.allowed.some(({ part }) => part === id) ? [each.id] : [])),
    ),
  );
  const near = judged.filter(({ rule }) => {
    const { models, family, rung } = rule.name;
    return rung === 'parts' || family === model.family || models.includes(model.id) || models.some((id) => inside.has(id));
  });
  const own = near.filter(({ rule }) => rule.name.models.includes(model.id) || rule.name.family === model.family);
  const seen = new Set(honest.map(({ rule }) => rule.name.text));
  const picked: Judged[] = [];
  const rungs = new Set<string>();
  // Rung by rung, so that the choices say different things; the model's own names first.
  for (const each of [...draw.shuffled(own), ...draw.shuffled(near)]) {
    const key = `${each.rule.name.rung}${each.rule.name.models.length === 0 ? each.rule.name.id.split(':')[0] : ''}`;
    if (honest.includes(each) || seen.has(each.rule.name.text) || rungs.has(key)) continue;
    seen.add(each.rule.name.text);
    rungs.add(key);
    picked.push(each);
    if (picked.length === 4) break;
  }
  return picked;
};

const subjectOf = (ground: Ground, { name: of }: NameRule): Subject => {
  const [first] = of.models;
  const model = first === undefined ? undefined : ground.models.get(first);
  if (of.rung === 'model' && model !== undefined) return { kind: 'model', id: model.id, text: of.text };
  return { kind: 'name', id: of.id, text: of.text };
};

const judgeName = (ground: Ground, drill: Drill, chosen: NameId): Judgement => {
  const unit = plannedUnit(ground, drill.sheet as Sheet, new Set());
  const ladder = ladderOf(unit);
  const honest = honestOf(ladder);
  const best = honest[0] as Judged;
  const judged = ladder.all();
  const mine = judged.find(({ rule }) => rule.name.id === chosen);
  const right = honest.some(({ rule }) => rule.name.id === chosen);
  const accepted = drill.choices.filter(({ id }) => honest.some(({ rule }) => rule.name.id === id));
  const higher = judged
    .slice(0, judged.indexOf(best))
    .filter(({ rule, status }) => status === 'ruled out' && drill.choices.some(({ id }) => id === rule.name.id));
  const strangers = right
    ? higher.flatMap(({ rule }) => strangersTo(unit, rule, drill.level).slice(0, 1))
    : mine === undefined
      ? []
      : strangersTo(unit, mine.rule, drill.level);
  const lower = !right && mine?.status === 'stands';
  const inFull = `In every slot that makes ${best.rule.name.text}, the part is one listed for it.`;
  const lead = right
    ? `${capitalised(best.rule.name.text)} stands, and nothing higher does.`
    : lower
      ? `That stands too, but more may be said: ${best.rule.name.text}.`
      : `${capitalised(mine?.rule.name.text ?? 'That')} is ruled out.`;
  return {
    right,
    accepted: accepted.map(({ id }) => [id]),
    sentences: [lead, ...(lower ? [inFull] : []), ...new Set(strangers.map(({ sentence }) => sentence))].slice(0, 5),
    showings: strangers.flatMap(({ showing }) => showing).slice(0, 2),
    confused: right || mine === undefined ? null : { asked: subjectOf(ground, best.rule), answered: subjectOf(ground, mine.rule) },
  };
};

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Slot by slot, what the name asks for and does not get. */
const strangersTo = (unit: Unit, rule: NameRule, level: DrillLevel): { sentence: string; showing: Showing[] }[] => {
  const found = strangersBySlot(unit, rule, level);
  if (found.length > 0 || rule.anyOf === null || judge(unit, rule).status !== 'ruled out') return found;
  return [
    { sentence: `Each part may belong to “${rule.name.text}” by itself; all of them together belong to none it could be.`, showing: [] },
  ];
};

const strangersBySlot = (unit: Unit, rule: NameRule, level: DrillLevel): { sentence: string; showing: Showing[] }[] =>
  unit.slots.flatMap(({ of }) => {
    const demand = rule.demands[of.number] ?? null;
    if (demand === null) return [];
    const chosen = unit.sheet.chosen[of.data.id];
    const said =
      rule.name.models.length === 1 && rule.name.rung !== 'pattern core'
        ? modelOf(unit, rule.name.models[0] as ModelId)
        : `“${rule.name.text}”`;
    if (chosen === undefined) return [{ sentence: `There is no ${of.data.name}, and ${said} asks for one.`, showing: [] }];
    const number = of.partNumber.get(chosen) as number;
    if (demand.has(number)) return [];
    const part = of.parts[number] as Part;
    const listed = [...demand].map((each) => of.parts[each] as Part);
    const [first] = listed;
    const names = listed.length > 3 ? `one of ${listed.length} others` : listed.map(({ name: called }) => called).join(' or ');
    return [
      {
        sentence: `The ${of.data.name} is ${part.name}; ${said} asks for ${first === undefined ? 'one the atlas does not list' : names}.`,
        showing: first === undefined ? [] : difference(unit, part, first, level),
      },
    ];
  });

const modelOf = (unit: Unit, id: ModelId): string => {
  const model = unit.atlas.models.get(id) as Model;
  const maker = (unit.atlas.families.get(model.family) as Family).maker;
  return maker === null ? model.name : `${unit.atlas.makers.get(maker)?.name} ${model.name}`;
};

/** The first look the two parts differ in, both drawn. */
const difference = (unit: Unit, one: Part, other: Part, level: DrillLevel): Showing[] => {
  const looks = looksOf(unit.atlas, one.slot, level).filter((each) => mayFill(each, level));
  const feature = looks.find(({ id }) => {
    const [a, b] = [one.facts[id], other.facts[id]];
    return (
      a !== undefined && b !== undefined && a.kind !== 'not known' && b.kind !== 'not known' && JSON.stringify(a) !== JSON.stringify(b)
    );
  });
  if (feature === undefined) return [];
  return [
    {
      slot: one.slot,
      feature: feature.id,
      sides: [
        { label: one.name, facts: one.facts },
        { label: other.name, facts: other.facts },
      ],
    },
  ];
};
