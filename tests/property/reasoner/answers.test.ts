import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Atlas,
  type Conflict,
  compileAtlas,
  explain,
  type NameAnswer,
  type PartId,
  type Sheet,
  type SlotId,
  type Verdict,
} from '../../../reasoner/index.ts';
import { minimalHittingSets } from '../../oracle/algebra/network.ts';
import { meanings } from '../../oracle/meanings.ts';
import { type Demand, readQuestion } from '../../oracle/reading.ts';
import { someChoiceMeetsAny } from './choices-by-hand.ts';
import { reordered, respelt } from './other-words.ts';
import { statusesOf, summaryOf, units, verdictOn } from './units.ts';

const runs = { seed: 20261125, numRuns: 150 };

const doubtfulIn = (verdict: Verdict): string[] => verdict.slots.filter((slot) => slot.doubtful).map((slot) => slot.slot);

/** The slots whose observations or absence a conflict holds. */
const observedSlots = (sheet: Sheet, { members }: Conflict): string[] => {
  const slotOf = new Map(sheet.observations.map((observation) => [observation.id, observation.slot]));
  const slots = members.flatMap((member) => {
    if (member.kind === 'observation') return [slotOf.get(member.observation) as string];
    return member.kind === 'absent' ? [member.slot] : [];
  });
  return [...new Set(slots)];
};

const slotOfMember = (sheet: Sheet, member: Conflict['members'][number]): string | null =>
  member.kind === 'observation'
    ? (sheet.observations.find(({ id }) => id === member.observation)?.slot ?? null)
    : member.kind === 'joint'
      ? null
      : member.slot;

const restsOnAbsenceOrPlate = (atlas: Atlas, sheet: Sheet, { members }: Conflict): boolean =>
  members.some(
    (member) => member.kind === 'absent' || atlas.slots.some(({ id, group }) => group === 'plate' && id === slotOfMember(sheet, member)),
  );

/** The unit's own: no demand of a name, and nothing of it at a slot that holds nothing. */
const asksForNothing = (atlas: Atlas, sheet: Sheet, { members }: Conflict): boolean => {
  const slotAt = (port: string) => atlas.ports.find(({ id }) => id === port)?.slot as (typeof sheet.absent)[number];
  const met = members.flatMap((member) => {
    if (member.kind !== 'joint') return [];
    const joint = atlas.joints.find(({ id }) => id === member.joint);
    return joint ? [slotAt(joint.a), slotAt(joint.b)] : [];
  });
  return members.every(({ kind }) => kind !== 'rule') && met.every((slot) => !sheet.absent.includes(slot));
};

describe('why a name is ruled out', () => {
  it('[S2] minimal conflicts on the slots observed and minimal swap sets are each other’s minimal hitting sets', () => {
    let dual = 0;
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const compiled = compileAtlas(atlas);
        const at = (slot: string) => atlas.slots.findIndex((candidate) => candidate.id === slot);
        const same = (sets: readonly (readonly number[])[]) => sets.map((set) => [...set].sort().join()).sort();
        for (const { name, status } of verdictOn(atlas, sheet).names) {
          if (status !== 'ruled out') continue;
          const why = explain(compiled, sheet, name.id);
          const projected = (why.conflicts?.found ?? []).map((conflict) => observedSlots(sheet, conflict).map(at));
          const swaps = (why.swaps?.found ?? []).map(({ slots }) => slots.map(at));
          expect(same(minimalHittingSets(projected).found)).toEqual(same(swaps));
          // Where no parts at all meet demands and joints, nothing can be swapped and there is nothing to turn round.
          if (swaps.length === 0) continue;
          dual++;
          const minimal = projected.filter((set, i) =>
            projected.every((other, j) => !other.every((slot) => set.includes(slot)) || (other.length === set.length && j >= i) || i === j),
          );
          expect(same(minimalHittingSets(swaps).found)).toEqual(same(minimal));
        }
      }),
      runs,
    );
    expect(dual).toBeGreaterThan(runs.numRuns);
  });

  it('[K1] every conflict is one, and is none without any one of its members: every choice of parts tried', () => {
    let tried = 0;
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const compiled = compileAtlas(atlas);
        const question = readQuestion(atlas, sheet);
        const demandsOf = ({ name }: NameAnswer): readonly Demand[] => {
          const own = question.demands.findIndex(({ names }) => names.includes(meanings(name)[0] as string));
          const of = question.several.find((each) => each.own === own)?.of ?? [own];
          return of.flatMap((i) => question.demands[i] ?? []);
        };
        const verdict = verdictOn(atlas, sheet);
        const doubtful = verdict.slots.filter((slot) => slot.doubtful).map(({ slot }) => slot);
        for (const named of verdict.names) {
          if (named.status !== 'ruled out' || tried > 6000) continue;
          const demands = demandsOf(named);
          if (demands.length === 0) throw new Error(`the page has no name ${meanings(named.name)[0]}`);
          for (const { members } of explain(compiled, sheet, named.name.id).conflicts?.found ?? []) {
            tried++;
            expect(someChoiceMeetsAny(question, members, demands, doubtful)).toBe(false);
            for (const left of members) {
              const rest = members.filter((member) => member !== left);
              expect(someChoiceMeetsAny(question, rest, demands, doubtful)).toBe(true);
            }
          }
        }
      }),
      runs,
    );
    expect(tried).toBeGreaterThan(1000);
  });

  it('[K1] [S1] conflicts come most telling first, swap sets cheapest first, and last what is not enough and what only a maker can do', () => {
    const kinds = new Set<number>();
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const compiled = compileAtlas(atlas);
        for (const { name, status } of verdictOn(atlas, sheet).names) {
          if (status !== 'ruled out') continue;
          const { conflicts, swaps } = explain(compiled, sheet, name.id);
          const told = (conflicts?.found ?? []).map((conflict) => {
            const last = restsOnAbsenceOrPlate(atlas, sheet, conflict) ? 2 : asksForNothing(atlas, sheet, conflict) ? 1 : 0;
            return last * 1e9 + conflict.members.length * 1e6 + conflict.minutes;
          });
          expect(told).toEqual([...told].sort((a, b) => a - b));
          for (const key of told) kinds.add(Math.floor(key / 1e9));
          const costs = (swaps?.found ?? []).map(({ minutes, plates, leaves }) => {
            const last = plates.length > 0 ? 2 : leaves === 'ruled out' ? 1 : 0;
            return last * 1e9 + minutes;
          });
          expect(costs).toEqual([...costs].sort((a, b) => a - b));
        }
      }),
      runs,
    );
    expect([...kinds].sort()).toEqual([0, 1, 2]);
  });
});

describe('the ladder', () => {
  it('[N4] a stronger name that stands makes every weaker one stand; a weaker one ruled out rules out every stronger', () => {
    let pairs = 0;
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const statuses = statusesOf(verdictOn(atlas, sheet));
        const { demands, several, noneOf } = readQuestion(atlas, sheet);
        // Names that hang on other names besides have tests of their own.
        const plain = demands.filter((demand, i) => demand.mayStand && ![...several, ...noneOf].some(({ own }) => own === i));
        const fails = ({ allowed, open }: Demand, slot: SlotId, part: PartId) =>
          !allowed.get(slot)?.has(part) && open.get(slot)?.has(part) !== false;
        for (const stronger of plain) {
          for (const weaker of plain) {
            const follows = [...weaker.allowed].every(([slot, parts]) => {
              const narrower = stronger.allowed.get(slot);
              const others = atlas.parts.filter((part) => part.slot === slot && fails(weaker, slot, part.id));
              return (
                narrower !== undefined &&
                [...narrower].every((part) => parts.has(part)) &&
                others.every(({ id }) => fails(stronger, slot, id)) &&
                (!stronger.open.has(slot) || weaker.open.has(slot))
              );
            });
            if (!follows) continue;
            const [above, below] = [stronger, weaker].map(({ names }) => names.map((name) => statuses.get(name)).find(Boolean));
            // Not every hybrid is listed (SPEC, "Which hybrids are judged").
            if (above === undefined || below === undefined) continue;
            pairs++;
            if (above === 'stands') expect(below).toBe('stands');
            if (below === 'ruled out') expect(above).toBe('ruled out');
          }
        }
      }),
      runs,
    );
    expect(pairs).toBeGreaterThan(10 * runs.numRuns);
  });

  it('[N3] [N4] the honest names stand, nothing on a higher rung does, and the open ones lie above', () => {
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const verdict = verdictOn(atlas, sheet);
        const byId = new Map(verdict.names.map((named, i) => [named.name.id, { ...named, i }]));
        expect(verdict.honest.length).toBeGreaterThan(0);
        for (const id of verdict.honest) expect(byId.get(id)?.status).toBe('stands');
        for (const id of verdict.open) expect(byId.get(id)?.status).toBe('open');
        const first = Math.min(...verdict.honest.map((id) => byId.get(id)?.i as number));
        for (const named of verdict.names.slice(0, first)) expect(named.status).not.toBe('stands');
      }),
      runs,
    );
  });
});

describe('what an answer does not hang on', () => {
  it('[N1] [C1] one more observation brings back no name and no candidate, unless it makes a further slot doubtful', () => {
    let asked = 0;
    fc.assert(
      fc.property(units, fc.nat(), ({ atlas, sheet }, which) => {
        const left = sheet.observations.length === 0 ? -1 : which % sheet.observations.length;
        const fewer = verdictOn(atlas, { ...sheet, observations: sheet.observations.filter((_, i) => i !== left) });
        const all = verdictOn(atlas, sheet);
        if (doubtfulIn(fewer).join() !== doubtfulIn(all).join()) return;
        asked++;
        const later = statusesOf(all);
        for (const [name, status] of statusesOf(fewer)) {
          if (status === 'ruled out') expect(later.get(name)).toBe('ruled out');
          if (status === 'stands') expect(later.get(name)).not.toBe('open');
        }
        for (const slot of all.slots) {
          const before = fewer.slots.find((other) => other.slot === slot.slot)?.candidates ?? [];
          for (const part of slot.candidates) expect(before).toContain(part);
        }
      }),
      runs,
    );
    expect(asked).toBeGreaterThan(runs.numRuns / 2);
  });

  it('[O1] what is told changes no status, no candidate and no conflict', () => {
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const silent = { ...sheet, observations: sheet.observations.filter(({ sure }) => sure.kind !== 'told') };
        expect(summaryOf(atlas, sheet)).toEqual(summaryOf(atlas, silent));
      }),
      runs,
    );
  });

  it('[N4] the order of observations, parts, models, joints and families changes nothing', () => {
    fc.assert(
      fc.property(units, fc.nat(), ({ atlas, sheet }, seed) => {
        const other = reordered(atlas, sheet, seed);
        expect(summaryOf(other.atlas, other.sheet)).toEqual(summaryOf(atlas, sheet));
      }),
      runs,
    );
  });

  it('[A6] spelling every id otherwise changes nothing', () => {
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const { back, ...other } = respelt(atlas, sheet);
        const inOrder = (value: unknown): unknown => {
          if (Array.isArray(value)) {
            const members = value.map(inOrder);
            return members.every((member) => typeof member === 'string')
              ? members.sort()
              : members.sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
          }
          if (typeof value === 'string')
            return value
              .split(/[ ,+]+/)
              .sort()
              .join(' ');
          if (typeof value === 'object' && value !== null)
            return Object.fromEntries(Object.entries(value).map(([key, of]) => [key, inOrder(of)]));
          return value;
        };
        const restored = JSON.parse(back(JSON.stringify(summaryOf(other.atlas, other.sheet)))) as unknown;
        expect(inOrder(restored)).toEqual(inOrder(JSON.parse(JSON.stringify(summaryOf(atlas, sheet)))));
      }),
      runs,
    );
  });
});
