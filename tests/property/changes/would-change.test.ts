import { describe, expect, test } from 'vitest';
import {
  type Atlas,
  compileAtlas,
  type Fact,
  type NameId,
  type Part,
  type PartId,
  type Sheet,
  wouldChange,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { partOfRow } from '../../oracle/machined.ts';
import { meanings } from '../../oracle/meanings.ts';
import { randomCase } from '../../oracle/random-atlas.ts';
import { type Question, readQuestion } from '../../oracle/reading.ts';

/** Something a shop may change in an atlas, at random: a fact, a part that is let go or like another, what a model lists, whether a list is whole. */
const edited = (atlas: Atlas, dice: Dice): Atlas => {
  const pick = <T>(of: readonly T[]): T => of[dice.whole(0, of.length - 1)] as T;
  const part = pick(atlas.parts);
  const putPart = (change: Partial<Part>): Atlas => ({
    ...atlas,
    parts: atlas.parts.map((each) => (each.id === part.id ? { ...each, ...change } : each)),
  });
  switch (dice.whole(0, 5)) {
    case 0: {
      const others = atlas.parts.filter(({ slot }) => slot === part.slot).flatMap(({ facts }) => Object.entries(facts));
      if (others.length === 0) return atlas;
      const [feature, fact] = pick(others) as [string, Fact];
      return putPart({ facts: { ...part.facts, [feature]: fact } as Part['facts'] });
    }
    case 1: {
      const [first] = Object.keys(part.facts);
      return first === undefined ? atlas : putPart({ facts: { ...part.facts, [first]: { kind: 'not known' } } as Part['facts'] });
    }
    case 2: {
      const spokenOf = atlas.parts.some(({ patternOf, supersedes }) => patternOf === part.id || supersedes === part.id);
      if (spokenOf) return atlas;
      return {
        ...atlas,
        parts: atlas.parts.filter(({ id }) => id !== part.id),
        models: atlas.models.map((model) => ({ ...model, allowed: model.allowed.filter(({ part: id }) => id !== part.id) })),
      };
    }
    case 3: {
      const { supersedes: _, ...alone } = part;
      return { ...atlas, parts: [...atlas.parts, { ...alone, id: `${part.id}-like` as PartId, numbers: [] }] };
    }
    case 4: {
      const model = pick(atlas.models);
      const listed = model.allowed.filter(({ part: id }) => id !== part.id);
      const allowed = dice.often(50)
        ? listed
        : [...listed, { slot: part.slot, part: part.id, role: pick(['names', 'option', 'service'] as const) }];
      return { ...atlas, models: atlas.models.map((each) => (each.id === model.id ? { ...each, allowed } : each)) };
    }
    default: {
      const model = pick(atlas.models);
      const { openEnded = [], ...rest } = model;
      const open = openEnded.includes(part.slot) ? openEnded.filter((slot) => slot !== part.slot) : [...openEnded, part.slot];
      return {
        ...atlas,
        models: atlas.models.map((each) => (each.id === model.id ? { ...rest, ...(open.length === 0 ? {} : { openEnded: open }) } : each)),
      };
    }
  }
};

/** What each name demands, by its meaning, as the second reading has it. */
const demandsIn = ({ demands }: Question): ReadonlyMap<string, string> => {
  const said = (of: ReadonlyMap<string, ReadonlySet<PartId>>): unknown =>
    [...of].map(([slot, parts]) => [slot, [...new Set([...parts].map(partOfRow))].sort()]).sort();
  return new Map(demands.flatMap(({ names, allowed, open }) => names.map((name) => [name, JSON.stringify([said(allowed), said(open)])])));
};

/** Every pair of parts that fails at a joint as they are made. */
const failing = ({ joints }: Question): ReadonlySet<string> =>
  new Set(joints.flatMap(({ id, fails }) => fails.flatMap(([p, q]) => (p.includes('#') || q.includes('#') ? [] : [`${id} ${p} ${q}`]))));

const unseen: Sheet = { ...randomCase(1).sheet, observations: [], absent: [], claimed: null };

describe('[H3] what an edit would change', () => {
  test('[H3] is what judging everything before and after finds: 300 edits', () => {
    let [namesSeen, meetingsSeen, alike] = [0, 0, 0];
    for (let seed = 1; seed <= 300; seed += 1) {
      const dice = new Dice(seed);
      const before = randomCase(1 + (seed % 60)).atlas;
      const after = edited(dice.often(30) ? edited(before, dice) : before, dice);
      const [was, is] = [compileAtlas(before), compileAtlas(after)];
      const would = wouldChange(was, is);
      const [first, second] = [readQuestion(before, unseen), readQuestion(after, unseen)];

      const [demanded, demands] = [demandsIn(first), demandsIn(second)];
      const told = new Set(would.names.filter(({ how }) => how === 'altered').map(({ id }) => id));
      for (const { name } of is.names) {
        if (!was.names.some((rule) => rule.name.id === name.id)) continue;
        const meant = meanings(name).filter((meaning) => demanded.has(meaning) && demands.has(meaning));
        if (meant.length === 0) continue;
        const differs = meant.some((meaning) => demanded.get(meaning) !== demands.get(meaning));
        expect([seed, name.id, told.has(name.id as NameId)]).toEqual([seed, name.id, differs]);
        if (differs) namesSeen += 1;
        else alike += 1;
      }

      const [failed, fails] = [failing(first), failing(second)];
      const expected = new Set<string>();
      for (const { id, a, b } of second.joints)
        for (const p of after.parts.filter(({ slot }) => slot === a))
          for (const q of after.parts.filter(({ slot }) => slot === b)) {
            const key = `${id} ${p.id} ${q.id}`;
            const both = [p, q].every((part) => before.parts.some((each) => each.id === part.id));
            const [then, now] = [both ? !failed.has(key) : false, !fails.has(key)];
            if (then !== now) expected.add(`${now ? 'more' : 'fewer'} ${key}`);
          }
      const found = new Set<string>();
      for (const { joint, part, more, fewer } of would.meetings) {
        const side = second.joints.find(({ id }) => id === joint)?.a === after.parts.find(({ id }) => id === part)?.slot;
        for (const [how, others] of [
          ['more', more],
          ['fewer', fewer],
        ] as const)
          for (const other of others) {
            const key = `${how} ${joint} ${side ? `${part} ${other}` : `${other} ${part}`}`;
            expect(found.has(key), `${key} is told once`).toBe(false);
            found.add(key);
          }
      }
      expect([...found].sort(), `seed ${seed}`).toEqual([...expected].sort());
      meetingsSeen += found.size;
    }
    // The edits did something.
    // The edits did something.
    expect([namesSeen > 400, meetingsSeen > 80, alike > 1000]).toEqual([true, true, true]);
  });
});
