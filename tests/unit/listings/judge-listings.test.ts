import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  answer,
  asId,
  judgeListings,
  type Listings,
  type ListingsItem,
  type ListingsRow,
  plainestFirst,
  type Sheet,
  type SlotId,
  standings,
} from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const items: readonly ListingsItem[] = [
  ...demoPack.sheets.map((sheet) => ({ source: `${sheet.id}.json`, sheet })),
  { source: 'torn.json', faults: ['torn.json, row 1: found the end, expected JSON.'] },
];
const run = (given: readonly ListingsItem[], stopAfter = Number.POSITIVE_INFINITY): { listings: Listings; steps: number } => {
  const running = judgeListings(demo, given);
  let steps = 0;
  let step = running.next();
  while (!step.done) {
    steps += 1;
    step = running.next(steps >= stopAfter);
  }
  return { listings: step.value, steps };
};
const { listings, steps } = run(items);
const rowOf = (id: string): ListingsRow => listings.rows.find(({ source }) => source.startsWith(id)) as ListingsRow;
const place = (id: string): number => listings.rows.indexOf(rowOf(id));

describe('many listings', () => {
  test('[T1] every sheet handed in is a row, those that could not be read with their faults', () => {
    expect(listings.rows.map(({ source }) => source).sort()).toEqual(items.map(({ source }) => source).sort());
    expect(rowOf('torn')).toMatchObject({
      standing: 'unreadable',
      sentences: ['torn.json, row 1: found the end, expected JSON.'],
      may: null,
    });
    expect(steps).toBe(items.length);
  });

  test('[N1] [N2] [N3] each row says what the verdict says, and the rows stand by it', () => {
    for (const item of items) {
      if (!('sheet' in item)) continue;
      const row = rowOf(item.source);
      if (item.sheet.kind === 'planned') {
        expect(row.standing).toBe('planned build');
        continue;
      }
      const verdict = answer(demo, item.sheet);
      if (verdict.kind === 'contradiction') expect(row.standing).toBe('contradiction');
      else if (verdict.claim === null) expect(row.standing).toBe('nothing claimed');
      else if (/no name|no maker/.test(verdict.claim.reading.verdict)) expect(row.standing).toBe('no name');
      else expect(row.standing).toBe(verdict.claim.status);
      if (verdict.kind !== 'verdict') continue;
      const [first] = verdict.names.filter(({ name }) => verdict.honest.includes(name.id));
      const nameless = first?.name.rung === 'parts';
      expect(row.may).toEqual(
        nameless
          ? 'a turbocharger made up of parts, with no name for the whole'
          : expect.stringMatching(/, by what was seen; .*(last word|by eye|to confirm)$/),
      );
      if (!nameless) expect(row.may).toContain(first?.name.text);
    }
    const order = listings.rows.map(({ standing }) => standings.indexOf(standing));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
  });

  test('[N6] a claim that is no name of its maker fails before any reason of the parts', () => {
    expect(rowOf('s03').standing).toBe('no name');
    expect(place('s03')).toBeLessThan(place('s01'));
  });

  test('[K1] claims ruled out come by their first reason: what it rests on, fewest members, least strip-down; then most independent reasons', () => {
    const ruled = listings.rows.filter(({ standing }) => standing === 'ruled out');
    expect(ruled.length).toBeGreaterThan(8);
    for (const row of ruled) {
      const item = items.find(({ source }) => source === row.source);
      const verdict = item && 'sheet' in item ? answer(demo, item.sheet) : null;
      if (verdict?.kind !== 'verdict') throw new Error('a row with a claim ruled out has a verdict');
      const conflicts = verdict.names.find(({ name }) => name.id === verdict.claim?.name)?.conflicts;
      const first = conflicts?.found[0];
      if (!conflicts || !first) continue;
      expect(row.plainness).toMatchObject({ members: first.members.length, minutes: first.minutes, reasons: conflicts.independent });
      expect(row.sentences.at(-1)).toBe(first.sentence);
    }
    const keys = ruled.map(({ plainness }) => [
      ['the parts', 'the unit’s own quarrel', 'an absence or the plate'].indexOf(plainness?.restsOn ?? ''),
      plainness?.members ?? 0,
      plainness?.minutes ?? 0,
      -(plainness?.reasons.count ?? 0),
    ]);
    const before = (a: readonly number[], b: readonly number[]): number => a.map((key, i) => key - (b[i] as number)).find(Boolean) ?? 0;
    expect(keys).toEqual(keys.toSorted(before));
    expect(new Set(keys.map(([restsOn]) => restsOn))).toEqual(new Set([0, 1, 2]));
  });

  test('[K1] a claim that fails for nothing but what is missing comes after one the parts speak against, however few it takes to say so', () => {
    const own = demoPack.sheets.find(({ id }) => id.startsWith('s07')) as Sheet;
    const plateless: Sheet = {
      ...own,
      absent: [asId<SlotId>('nameplate')],
      observations: own.observations.filter(({ slot }) => slot !== 'nameplate'),
    };
    const { listings: two } = run([
      { source: 'plateless', sheet: plateless },
      { source: 'wrong wheel', sheet: demoPack.sheets.find(({ id }) => id.startsWith('s05')) as Sheet },
    ]);
    expect(two.rows.map(({ source, plainness }) => [source, plainness?.restsOn, plainness?.members])).toEqual([
      ['wrong wheel', 'the parts', 2],
      ['plateless', 'an absence or the plate', 1],
    ]);
  });

  test('[N3] a name that stands is said with the maker’s confirmation, and the cautions stand with the whole', () => {
    expect(rowOf('s07').may).toMatch(/^Merrowby Petrel 11 Cartridge, .*the maker’s confirmation of the plate is the last word$/);
    expect(listings.cautions.join(' ')).toMatch(/Looks alone.*legal opinion.*burst/s);
  });

  test('[N6] a well-formed name the atlas does not list is ruled out by the promises it breaks, each a reason', () => {
    const own = demoPack.sheets.find(({ id }) => id.startsWith('s07')) as Sheet;
    const unlisted: Sheet = { ...own, claimed: 'Petrel 12 Cartridge' };
    const [row] = run([{ source: 'x', sheet: unlisted }]).listings.rows as [ListingsRow];
    const verdict = answer(demo, unlisted);
    if (verdict.kind !== 'verdict') throw new Error('nothing was judged');
    expect(verdict.claim?.reading.verdict).toBe('well formed, not in the atlas');
    expect(row.standing).toBe(verdict.claim?.status);
    if (row.standing === 'ruled out') {
      expect(row.plainness?.reasons.count).toBeGreaterThan(0);
      expect(row.plainness?.members).toBeGreaterThan(1);
    }
  });

  test('stopped, it gives what was judged until then and names every sheet it did not reach', () => {
    const { listings: part } = run(items, 5);
    expect(part.complete).toBe(false);
    expect(part.rows).toHaveLength(items.length);
    expect(part.rows.filter(({ standing }) => standing === 'not reached')).toHaveLength(items.length - 5 - 1);
    expect(part.rows.find(({ source }) => source === 'torn.json')?.standing).toBe('unreadable');
    expect(run(items, items.length).listings.complete, 'stopped after the last there is nothing left').toBe(true);
  });

  test('the order is one order: the same whatever order the sheets were handed in', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...listings.rows], { minLength: listings.rows.length }), (shuffled) => {
        expect(shuffled.toSorted(plainestFirst)).toEqual(listings.rows);
      }),
      { seed: 20261125, numRuns: 50 },
    );
    const named = (source: string): ListingsRow => ({ ...rowOf('torn'), source });
    const sources = ['unit 9', 'unit 10', 'unit 10 b', 'unit x'];
    expect(
      sources
        .map(named)
        .toReversed()
        .toSorted(plainestFirst)
        .map(({ source }) => source),
    ).toEqual(sources);
    expect(plainestFirst(named('a'), { ...named('a'), sheet: asId('b') })).toBeLessThan(0);
  });
});
