import { beforeAll, describe, expect, test } from 'vitest';
import {
  type FeatureId,
  fitOf,
  type JointId,
  type Part,
  type PartId,
  planBuild,
  type Sheet,
  type SlotId,
  type SlotOptions,
  slotOptions,
} from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const housing = 'compressor-housing' as SlotId;
const whole = demoPack.sheets.find(({ id }) => id.startsWith('s24-')) as Sheet;
/** The Tern 7 core of s24 with no compressor housing yet. */
const core: Sheet = { ...whole, chosen: Object.fromEntries(Object.entries(whole.chosen).filter(([slot]) => slot !== housing)) };
const all = demo.slots[demo.slotNumber.get(housing) as number]?.parts ?? [];

let told: SlotOptions;
beforeAll(() => {
  told = slotOptions(demo, core, housing);
});
const option = (id: string) => told.options.find(({ part }) => part === id);
const reasons = (id: string) => told.rest.find(({ parts }) => parts.includes(id as PartId))?.because;

describe('[F2] what may go over a Tern 7’s wheel', () => {
  test('[F2] every compressor housing of the atlas is answered for, once', () => {
    const answered = [...told.options.map(({ part }) => part), ...told.rest.flatMap(({ parts }) => parts)];
    expect(answered.toSorted()).toEqual(all.map(({ id }) => id).toSorted());
    expect(told.joints).toEqual(['compressor-housing-and-backplate', 'compressor-wheel-and-compressor-housing']);
  });

  test('[F2] its own housing drops in, for nothing but its price', () => {
    expect(option('merrowby-tern-7-compressor-housing')).toMatchObject({ verdict: 'drops in', hours: 0, operations: 0 });
    expect(option('merrowby-tern-7-compressor-housing')?.price).toBeGreaterThan(0);
  });

  test('[F2] Alder III goes on after work, with both operations, their sizes and their hours', () => {
    const alder = option('tarnwick-alder-iii-compressor-housing');
    expect(alder?.verdict).toBe('after work');
    expect(alder?.joints.map(({ operations }) => operations)).toEqual([['open-compressor-recess'], ['recontour-compressor-housing']]);
    const plan = planBuild(demo, whole);
    if (plan.kind !== 'plan') throw new Error('s24 contradicts itself');
    expect([alder?.hours, alder?.operations]).toEqual([plan.cost.hours, plan.works.length]);
    for (const work of plan.works) expect(alder?.joints.flatMap(({ sentences }) => sentences)).toContain(work.sentence);
  });

  test('[F2] what will not fit says why, and why no operation helps', () => {
    const veldmark = all.find(({ id }) => id.startsWith('veldmark-'))?.id ?? '';
    expect(reasons(veldmark)?.join(' '), 'clamped where this core bolts').toMatch(/joining/);
    const large = reasons('merrowby-gannet-16-compressor-housing')?.join(' ') ?? '';
    expect(large).toMatch(/not the same|asked for/);
    for (const { because } of told.rest) expect(because.length).toBeGreaterThan(0);
  });

  test('[F2] a part drops in just when both its joints do by themselves, and the rest fails at one of them at least', () => {
    const verdicts = (id: PartId) => [
      fitOf(demo, 'compressor-housing-and-backplate' as JointId, id, core.chosen['backplate' as SlotId] as PartId).verdict,
      fitOf(demo, 'compressor-wheel-and-compressor-housing' as JointId, core.chosen['compressor-wheel' as SlotId] as PartId, id).verdict,
    ];
    for (const { part, verdict } of told.options) {
      expect(verdict === 'drops in', part).toBe(verdicts(part).every((each) => each === 'drops in'));
    }
    for (const part of told.rest.flatMap(({ parts }) => parts)) expect(verdicts(part), part).toContain('will not fit');
  });

  test('[F2] in order: what drops in, then after work by hours, then what is not known', () => {
    const order = { 'drops in': 0, 'after work': 1, 'not known': 2 } as const;
    const keys = told.options.map(({ verdict, hours }) => order[verdict] * 1000 + hours);
    expect(keys).toEqual(keys.toSorted((a, b) => a - b));
    expect(new Set(told.options.map(({ verdict }) => verdict)).size).toBeGreaterThan(1);
  });

  test('[A5] a housing with a dimension nobody has measured is not known, and says which', () => {
    const unknown = told.options.filter(({ verdict }) => verdict === 'not known');
    for (const { part, joints } of unknown) {
      expect(
        joints
          .filter(({ verdict }) => verdict === 'not known')
          .flatMap(({ sentences }) => sentences)
          .join(' '),
        part,
      ).toMatch(/not known/);
    }
    const own = demo.parts.get('merrowby-tern-7-compressor-housing' as PartId);
    const facts: Part['facts'] = { ...own?.facts, ['compressor-housing-recess' as FeatureId]: { kind: 'not known' } };
    const slots = demo.slots.map((slot) => ({
      ...slot,
      parts: slot.parts.map((part) => (part.id === 'merrowby-tern-7-compressor-housing' ? { ...part, facts } : part)),
    }));
    const again = slotOptions({ ...demo, slots }, core, housing).options.find(({ part }) => part === 'merrowby-tern-7-compressor-housing');
    expect(again?.verdict).toBe('not known');
    expect(again?.joints[0]?.sentences.join(' ')).toContain('backplate recess diameter');
  });

  test('[J2] with no neighbour chosen everything drops in, and no joint is said to have been judged', () => {
    const bare = slotOptions(demo, { ...core, chosen: {} }, housing);
    expect([bare.joints, bare.rest, bare.options.length]).toEqual([[], [], all.length]);
  });

  test('[A6] a slot the atlas does not have is an error, not an empty list', () => {
    expect(() => slotOptions(demo, core, 'intercooler' as SlotId)).toThrow(/no slot intercooler/);
  });
});
