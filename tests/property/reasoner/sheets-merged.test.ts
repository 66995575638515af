import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asId, type Observation, type ObservationId, type Sheet } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import type { Side } from '../../../reasoner/plain/fields-merged.ts';
import { type SheetEntry, sheetsMerged } from '../../../reasoner/plain/sheets-merged.ts';

const blank = blankSheet(asId('s'));

/** What a sheet says, one line each, entries without their ids: read by hand, apart from how the merge reads it. */
const lines = (sheet: Sheet): string[] =>
  [
    `title ${sheet.title}`,
    `story ${sheet.story}`,
    `serial ${sheet.serial ?? ''}`,
    `claim ${sheet.claimed} ${sheet.claimedMaker}`,
    ...sheet.observations.map((one) => `seen ${one.feature} ${JSON.stringify(one.value)} ${one.note ?? ''}`),
    ...(sheet.unseen ?? []).map((one) => `unseen ${one.feature} ${one.why}`),
    ...sheet.absent.map((slot) => `absent ${slot}`),
    ...Object.entries(sheet.chosen).map(([slot, part]) => `chosen ${slot} ${part}`),
  ].sort();

/** The same of one entry a difference shows. */
const lineOf = (entry: SheetEntry | null): string => {
  if (entry === null) return '';
  const [line] = lines(
    entry.kind === 'observation'
      ? { ...blank, observations: [entry.observation] }
      : entry.kind === 'unseen'
        ? { ...blank, unseen: [entry.unseen] }
        : entry.kind === 'claim'
          ? { ...blank, claimed: entry.claimed, claimedMaker: entry.claimedMaker }
          : entry.kind === 'chosen'
            ? { ...blank, chosen: { [entry.slot]: entry.part } }
            : entry.kind === 'absent'
              ? { ...blank, absent: [entry.slot] }
              : entry.kind === 'kind'
                ? blank
                : { ...blank, [entry.kind]: entry.text },
  ).filter((one) => !lines(blank).includes(one));
  return line ?? '';
};

const count = (n: number) => ({ kind: 'count', from: n, to: n }) as const;
const observation = (id: string, feature: string, n: number, note: string): Observation => ({
  id: asId<ObservationId>(id),
  slot: asId('compressor-wheel'),
  feature: asId(feature),
  value: count(n),
  sure: { kind: 'seen' },
  ...(note === '' ? {} : { note }),
});

const features = ['blades', 'splitters', 'letters'] as const;
const slots = ['compressor-housing', 'turbine-housing'] as const;

type Step = (sheet: Sheet) => Sheet;
const short = fc.constantFrom('', 'a', 'b');
/** One thing somebody does to a sheet. Fresh entries take the next free id, as the window gives them, so that two windows give the same. */
const step: fc.Arbitrary<Step> = fc.oneof(
  short.map(
    (title): Step =>
      (sheet) => ({ ...sheet, title }),
  ),
  short.map(
    (story): Step =>
      (sheet) => ({ ...sheet, story }),
  ),
  short.map(
    (serial): Step =>
      ({ serial: _, ...sheet }) =>
        serial === '' ? sheet : { ...sheet, serial },
  ),
  fc.constantFrom(null, 'Petrel 6', 'Tern 4').map(
    (claimed): Step =>
      (sheet) => ({ ...sheet, claimed }),
  ),
  fc.tuple(fc.constantFrom(...features), fc.integer({ min: 5, max: 7 }), short).map(
    ([feature, n, note]): Step =>
      (sheet) => {
        let number = sheet.observations.length + 1;
        while (sheet.observations.some(({ id }) => id === `o${number}`)) number += 1;
        return { ...sheet, observations: [...sheet.observations, observation(`o${number}`, feature, n, note)] };
      },
  ),
  fc.tuple(fc.nat(4), fc.integer({ min: 5, max: 7 })).map(
    ([at, n]): Step =>
      (sheet) => ({
        ...sheet,
        observations: sheet.observations.map((one, i) => (i === at ? { ...one, value: count(n) } : one)),
      }),
  ),
  fc.nat(4).map(
    (at): Step =>
      (sheet) => ({ ...sheet, observations: sheet.observations.filter((_, i) => i !== at) }),
  ),
  fc.tuple(fc.constantFrom(...features), fc.constantFrom('could not see', 'no instrument')).map(
    ([feature, why]): Step =>
      (sheet) => ({
        ...sheet,
        unseen: [
          ...(sheet.unseen ?? []).filter((one) => one.feature !== feature),
          { slot: asId('compressor-wheel'), feature: asId(feature), why },
        ],
      }),
  ),
  fc.constantFrom(...slots).map(
    (slot): Step =>
      (sheet) => ({
        ...sheet,
        absent: sheet.absent.includes(asId(slot)) ? sheet.absent.filter((one) => one !== slot) : [...sheet.absent, asId(slot)],
      }),
  ),
  fc.tuple(fc.constantFrom(...slots), fc.constantFrom('p1', 'p2')).map(
    ([slot, part]): Step =>
      (sheet) => ({
        ...sheet,
        chosen: { ...sheet.chosen, [slot]: part },
      }),
  ),
);
const steps = fc.array(step, { maxLength: 5 });
const after = (sheet: Sheet, taken: readonly Step[]): Sheet => taken.reduce((now, one) => one(now), sheet);
const three = fc.tuple(steps, steps, steps).map(([first, mine, theirs]) => {
  const base = after(blank, first);
  return { base, mine: after(base, mine), theirs: after(base, theirs) };
});
const runs = { numRuns: 1000 };

/** How often each line is said. */
const counted = (sheet: Sheet): Map<string, number> => {
  const many = new Map<string, number>();
  for (const line of lines(sheet)) many.set(line, (many.get(line) ?? 0) + 1);
  return many;
};

describe('[H5] two states of one sheet joined', () => {
  test('[H5] what either says that the earlier state did not say is in the joined sheet, or is shown as changed on both sides', () => {
    fc.assert(
      fc.property(three, ({ base, mine, theirs }) => {
        const { merged, disagreements } = sheetsMerged(base, mine, theirs);
        const shown = new Set(disagreements.flatMap((one) => [one.mine, one.theirs].map(lineOf)));
        const was = counted(base);
        const is = counted(merged);
        for (const side of [mine, theirs])
          for (const [line, many] of counted(side)) {
            if (many <= (was.get(line) ?? 0) || (is.get(line) ?? 0) >= 1) continue;
            // What was emptied is shown as nothing.
            expect(shown, line).toContain(lines(blank).includes(line) ? '' : line);
          }
      }),
      runs,
    );
  });

  test('[H5] nothing that both left as it was is lost, and nothing is said that neither says', () => {
    fc.assert(
      fc.property(three, ({ base, mine, theirs }) => {
        const { merged } = sheetsMerged(base, mine, theirs);
        const [here, there, is] = [mine, theirs, merged].map(counted) as [Map<string, number>, Map<string, number>, Map<string, number>];
        for (const line of is.keys()) if (!/^(title|story|claim) /.test(line)) expect(here.has(line) || there.has(line), line).toBe(true);
        for (const { id } of base.observations) {
          const same = (sheet: Sheet) => JSON.stringify(sheet.observations.find((one) => one.id === id));
          if (same(mine) === same(base) && same(theirs) === same(base)) expect(same(merged)).toBe(same(base));
        }
        for (const one of mine.absent) if (theirs.absent.includes(one)) expect(merged.absent).toContain(one);
        expect(new Set(merged.observations.map(({ id }) => id)).size).toBe(merged.observations.length);
        expect(new Set(merged.absent).size).toBe(merged.absent.length);
      }),
      runs,
    );
  });

  test('[H5] where only one changed anything the other’s is taken as it is; where both changed the same, nobody is asked', () => {
    fc.assert(
      fc.property(three, ({ base, mine }) => {
        for (const [here, there] of [
          [mine, base],
          [base, mine],
          [mine, mine],
        ] as const) {
          const { merged, disagreements } = sheetsMerged(base, here, there);
          expect(disagreements).toEqual([]);
          expect(lines(merged)).toEqual(lines(mine));
        }
        expect(sheetsMerged(base, mine, mine).differences).toEqual([]);
      }),
      runs,
    );
  });

  test('[H5] it makes no difference which of the two is called mine, but for the ids of entries and what nobody has decided', () => {
    fc.assert(
      fc.property(three, ({ base, mine, theirs }) => {
        const one = sheetsMerged(base, mine, theirs);
        const other = sheetsMerged(base, theirs, mine);
        expect(one.disagreements.map(({ key }) => key).sort()).toEqual(other.disagreements.map(({ key }) => key).sort());
        const all = (side: Side, of: typeof one) => new Map(of.disagreements.map(({ key }): [string, Side] => [key, side]));
        expect(lines(sheetsMerged(base, mine, theirs, all('mine', one)).merged)).toEqual(
          lines(sheetsMerged(base, theirs, mine, all('theirs', other)).merged),
        );
      }),
      runs,
    );
  });

  test('[H5] every disagreement is as it was decided, one by one, and then none is left', () => {
    fc.assert(
      fc.property(three, fc.infiniteStream(fc.constantFrom<Side>('mine', 'theirs')), ({ base, mine, theirs }, sides) => {
        const open = sheetsMerged(base, mine, theirs);
        const decided = new Map(open.disagreements.map(({ key }): [string, Side] => [key, sides.next().value as Side]));
        const { merged, disagreements } = sheetsMerged(base, mine, theirs, decided);
        expect(disagreements).toEqual([]);
        for (const { key, mine: here, theirs: there } of open.disagreements) {
          const taken = decided.get(key) === 'mine' ? here : there;
          if (key === 'title') expect(merged.title).toBe(taken?.kind === 'title' ? taken.text : '');
          if (key.startsWith('observation '))
            expect(merged.observations.find(({ id }) => key === `observation ${id}`)).toEqual(
              taken?.kind === 'observation' ? taken.observation : undefined,
            );
        }
      }),
      runs,
    );
  });
});

describe('[H5] two states of one sheet joined, by hand', () => {
  const base: Sheet = { ...blank, title: 'On the counter', observations: [observation('o1', 'blades', 7, '')] };
  const mine: Sheet = {
    ...base,
    observations: [...base.observations, observation('o2', 'splitters', 6, '')],
    absent: [asId('turbine-housing')],
  };
  const theirs: Sheet = {
    ...base,
    title: 'From the pilot boat',
    observations: [observation('o1', 'blades', 7, ''), observation('o2', 'letters', 5, '')],
  };

  test('[H5] two fresh entries under one id are two entries, and the one that is kept already keeps its id', () => {
    const { merged, disagreements } = sheetsMerged(base, mine, theirs);
    expect(disagreements).toEqual([]);
    expect(merged).toEqual({
      ...base,
      title: 'From the pilot boat',
      observations: [...theirs.observations, observation('o3', 'splitters', 6, '')],
      absent: ['turbine-housing'],
    });
  });

  test('[H5] several fresh entries under ids that are taken get an id each', () => {
    const fresh = (...counts: number[]): Sheet => ({
      ...base,
      observations: [...base.observations, ...counts.map((n, i) => observation(`o${i + 2}`, 'letters', n, ''))],
    });
    const { merged } = sheetsMerged(base, fresh(1, 2, 3), fresh(4, 5, 6));
    expect(merged.observations.map(({ id }) => id)).toEqual(['o1', 'o2', 'o3', 'o4', 'o5', 'o6', 'o7']);
    expect(merged.observations.slice(1).map(({ value }) => value)).toEqual([4, 5, 6, 1, 2, 3].map(count));
  });

  test('[H5] the same fresh entry made twice on one side is two entries there still', () => {
    const twice: Sheet = {
      ...base,
      observations: [...base.observations, observation('o2', 'letters', 5, ''), observation('o3', 'letters', 5, '')],
    };
    const once: Sheet = { ...base, observations: [...base.observations, observation('o2', 'letters', 5, '')] };
    expect(sheetsMerged(base, twice, once).merged.observations).toHaveLength(3);
    expect(sheetsMerged(base, once, twice).merged.observations).toHaveLength(3);
  });

  test('[H5] the same fresh entry under two ids is one entry', () => {
    const there: Sheet = {
      ...base,
      observations: [...base.observations, observation('o2', 'letters', 5, ''), observation('o3', 'splitters', 6, '')],
    };
    expect(sheetsMerged(base, mine, there).merged.observations).toEqual(there.observations);
  });

  test('[H5] an entry one took away and the other corrected is a disagreement, and stays until it is decided', () => {
    const gone: Sheet = { ...base, observations: [] };
    const corrected: Sheet = { ...base, observations: [observation('o1', 'blades', 6, '')] };
    const { merged, disagreements } = sheetsMerged(base, gone, corrected);
    expect(disagreements).toEqual([
      {
        key: 'observation o1',
        changed: 'both',
        base: { kind: 'observation', observation: base.observations[0] },
        mine: null,
        theirs: { kind: 'observation', observation: corrected.observations[0] },
      },
    ]);
    expect(merged).toEqual(corrected);
    expect(sheetsMerged(base, gone, corrected, new Map([['observation o1', 'mine']])).merged).toEqual(gone);
  });

  test('[H5] without an earlier state what is empty gives way to what is filled, and what is filled on both sides is asked about', () => {
    const here: Sheet = { ...blank, title: 'Mine', story: '' };
    const there: Sheet = { ...blank, title: 'Theirs', story: 'Found in a shed.' };
    const { merged, disagreements } = sheetsMerged(null, here, there);
    expect(disagreements.map(({ key }) => key)).toEqual(['title']);
    expect(merged.story).toBe('Found in a shed.');
    expect(sheetsMerged(null, { ...here, title: '' }, there).disagreements).toEqual([]);
  });

  test('[H5] a note emptied by nobody stays, and one that was emptied is emptied', () => {
    const noted: Sheet = { ...base, story: 'Found in a shed.' };
    expect(sheetsMerged(base, { ...base, title: 'Other' }, noted).merged).toEqual({ ...noted, title: 'Other' });
    expect(sheetsMerged(noted, base, { ...noted, title: 'Other' }).merged).toEqual({ ...base, title: 'Other' });
  });

  test('[H5] fields in another order are the same entry', () => {
    const [one] = base.observations as [Observation];
    const turned: Sheet = {
      ...base,
      observations: [{ sure: one.sure, value: one.value, feature: one.feature, slot: one.slot, id: one.id }],
    };
    expect(sheetsMerged(base, turned, base).differences).toEqual([]);
  });
});
