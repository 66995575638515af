import { describe, expect, test } from 'vitest';
import {
  answer,
  compileAtlas,
  type Model,
  oddsOf,
  type Part,
  type PartId,
  type Plan,
  planBuild,
  planWork,
  type Sheet,
  type SlotId,
  type Verdict,
  type WorkedFit,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { randomCase } from '../../oracle/random-atlas.ts';
import { demo, demoAtlas, demoPack } from '../seed/demo-atlas.ts';
import { asBuilt } from './as-built.ts';
import { withShop } from './made-up-shop.ts';

const planOf = (sheet: Sheet): Plan => {
  const plan = planBuild(demo, sheet);
  if (plan.kind !== 'plan') throw new Error(`${sheet.id} contradicts itself`);
  return plan;
};
const verdictOf = (sheet: Sheet): Verdict => {
  const verdict = answer(demo, sheet, { explain: 'none' });
  if (verdict.kind !== 'verdict') throw new Error(`${sheet.id} contradicts itself`);
  return verdict;
};

/** What the plan said of a build, and what is said of the same as a found unit. */
const compared = (sheet: Sheet) => {
  const plan = planOf(sheet);
  const verdict = verdictOf(asBuilt(demo, sheet, plan));
  const built = plan.slots.flatMap(({ slot, part, machined }) => (part === null ? [] : [{ slot, part, machined }]));
  return {
    plan,
    verdict,
    said: { names: plan.honest, parts: built },
    // A part that no look tells from the one planned may stand beside it.
    found: {
      names: verdict.honest,
      parts: built.map(({ slot, part }) => {
        const answer = verdict.slots.find((each) => each.slot === slot);
        const candidate = answer?.candidates.includes(part) ? part : answer?.candidates.join();
        return { slot, part: candidate, machined: answer?.machined.some((each) => each.part === part) };
      }),
    },
  };
};

const goesTogether = (plan: Plan): boolean => plan.joints.every(({ after }) => after.verdict !== 'will not fit');

/** One part a slot: what names the model where something does. */
const ownParts = (model: Model): Record<SlotId, PartId> =>
  Object.fromEntries(
    demoAtlas.slots.flatMap((slot) => {
      const listed = model.allowed.filter((each) => each.slot === slot.id);
      const part = (listed.find((each) => each.role === 'names') ?? listed[0])?.part;
      return part === undefined || slot.group === 'plate' ? [] : [[slot.id, part]];
    }),
  ) as Record<SlotId, PartId>;

/** Of each model, builds in which one slot holds a stranger's part that its neighbours take after work, as the planner has it; as many of each slot as told. */
const builds = (slot: SlotId, most: number): Sheet[] => {
  const number = demo.slotNumber.get(slot) as number;
  const joints = demo.joints.filter(({ a, b }) => a === number || b === number);
  const known = new Map<string, WorkedFit>();
  const fitOf = (joint: (typeof joints)[number], one: Part, other: Part): WorkedFit => {
    const key = `${joint.data.id} ${one.id} ${other.id}`;
    const before = known.get(key);
    if (before) return before;
    const slots = { a: demoAtlas.slots[joint.a]?.id as SlotId, b: demoAtlas.slots[joint.b]?.id as SlotId };
    const fit = planWork(
      joint.data,
      slots,
      one,
      other,
      (demoAtlas.operations ?? []).filter((each) => [slots.a, slots.b].includes(each.slot)),
    );
    known.set(key, fit);
    return fit;
  };
  const goesOn = (part: Part, chosen: Record<SlotId, PartId>): boolean => {
    const fits = joints.flatMap((joint) => {
      const other = demo.parts.get(chosen[demoAtlas.slots[joint.a === number ? joint.b : joint.a]?.id as SlotId] as PartId);
      return other === undefined ? [] : [fitOf(joint, part, other)];
    });
    return fits.every(({ verdict }) => verdict === 'drops in' || verdict === 'after work') && fits.some(({ plans }) => plans.length > 0);
  };
  const found: Sheet[] = [];
  for (const model of demoAtlas.models) {
    const chosen = ownParts(model);
    const strangers = demoAtlas.parts.filter((each) => each.slot === slot && each.id !== chosen[slot] && goesOn(each, chosen));
    for (const part of strangers.slice(0, 2)) {
      const id = `${model.id} with ${part.id}` as Sheet['id'];
      found.push({ ...(planned[0] as Sheet), id, observations: [], absent: [], chosen: { ...chosen, [slot]: part.id } });
    }
  }
  return found.slice(0, most);
};

const planned = demoPack.sheets.filter(({ kind }) => kind === 'planned').filter((sheet) => goesTogether(planOf(sheet)));

describe('[O2] [J1] a unit built as planned and measured is what the plan said it may be called', () => {
  test.each(planned.map((sheet) => [sheet.id, sheet] as const))('[O2] %s', (_id, sheet) => {
    const { said, found } = compared(sheet);
    expect(found).toEqual(said);
  });

  test('[O2] [J1] cores with a stranger’s compressor housing that goes on after work', () => {
    const all = builds('compressor-housing' as SlotId, 8);
    expect(all.length).toBe(8);
    for (const sheet of all) {
      const { plan, said, found } = compared(sheet);
      expect(plan.works.length, sheet.id).toBeGreaterThan(0);
      expect(found, sheet.id).toEqual(said);
    }
  });

  test('[Q1] [O2] its entries are as likely right as those of any unit, and what was machined is not suspected', () => {
    for (const sheet of builds('compressor-housing' as SlotId, 3)) {
      const { verdict } = compared(sheet);
      const built = asBuilt(demo, sheet, planOf(sheet));
      const odds = oddsOf(demo, built);
      if (odds.kind !== 'odds') throw new Error(`${sheet.id} contradicts itself`);
      const machined = verdict.slots.flatMap((slot) =>
        slot.machined.flatMap(({ told }) => told.flatMap(({ observations }) => observations)),
      );
      expect(machined.length, sheet.id).toBeGreaterThan(0);
      expect(odds.ifRight?.chance ?? 0, sheet.id).toBeGreaterThan(0.5);
      expect((odds.ifWrong?.entries ?? []).filter(({ observation }) => machined.includes(observation))).toEqual([]);
    }
  });
});

describe('[O2] [J1] made-up atlases with shops of their own', () => {
  test('[O2] [J1] the parts of a build that was carried out are never ruled out, nor its names, and what was worked is machined', () => {
    let [worked, told] = [0, 0];
    for (let seed = 1; seed <= 400; seed += 1) {
      const dice = new Dice(seed * 17 + 3);
      const made = randomCase(seed);
      const atlas = compileAtlas(withShop(dice, { ...made.atlas, operations: [] }));
      const chosen = Object.fromEntries(atlas.slots.map(({ data: slot, parts }) => [slot.id, dice.one(parts).id]));
      const sheet: Sheet = { ...made.sheet, kind: 'planned', observations: [], absent: [], chosen };
      const plan = planBuild(atlas, sheet);
      if (plan.kind !== 'plan' || !goesTogether(plan)) continue;
      const verdict = answer(atlas, asBuilt(atlas, sheet, plan), { explain: 'none' });
      if (verdict.kind !== 'verdict') throw new Error(`seed ${seed} contradicts itself`);
      if (plan.works.length > 0) worked += 1;
      for (const { slot, part, machined } of plan.slots) {
        const answered = verdict.slots.find((each) => each.slot === slot);
        expect(answered?.candidates, `seed ${seed}, ${slot}`).toContain(part);
        expect(answered?.doubtful, `seed ${seed}, ${slot}`).toBe(false);
        // Finished within the limits it is made with, a part shows nothing of the work.
        if (!machined) expect(answered?.machined.map((each) => each.part)).not.toContain(part);
        else if (answered?.machined.some((each) => each.part === part)) told += 1;
      }
      for (const id of plan.honest)
        expect(verdict.names.find(({ name }) => name.id === id)?.status ?? 'open', `seed ${seed}, ${id}`).not.toBe('ruled out');
    }
    expect(worked).toBeGreaterThan(15);
    expect(told).toBeGreaterThan(10);
  });
});
