import { describe, expect, it } from 'vitest';
import {
  type Atlas,
  asId,
  type CaseVerdict,
  compileAtlas,
  judgeCase,
  type KeptCase,
  type Observation,
  type RetoldList,
  retold,
  retoldAll,
  retoldWeights,
  type Sheet,
  type SheetId,
} from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from './little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const whole = [
  marked('housing.cast-name', 'QUAYSIDE'),
  measured('housing.bore', 50.6),
  blades(6),
  chose('shaft.weld', 'beam'),
  marked('plate.number', '5-50'),
];
const offered = (observations: readonly Observation[], rest: Partial<Sheet> = {}): Sheet =>
  sheetOf(observations, { claimed: 'Ling 3 Cartridge', claimedMaker: asId('quayside'), ...rest });
const kept = (sheet: Sheet, of = atlas) => ({ sheet, verdict: judgeCase(of, sheet) });

const editionWith = (change: (plain: Atlas) => Atlas) => compileAtlas({ ...change(littleAtlas), edition: 'little, second edition' });
/** The wheel of the claimed model turns out to have five blades. */
const corrected = editionWith((plain) => ({
  ...plain,
  parts: plain.parts.map((part) =>
    part.id === 'wheel/ling' ? { ...part, facts: { ...part.facts, 'wheel.blades': { kind: 'count', from: 5, to: 5 } } } : part,
  ),
}));
const renamed = editionWith((plain) => plain);

const caseOf = (n: number, sheet: Sheet, verdict: CaseVerdict = judgeCase(atlas, sheet)): KeptCase => ({
  sheet: asId<SheetId>(`s${n}`),
  number: `2026-${String(n).padStart(4, '0')}`,
  title: `unit ${n}`,
  entry: 1,
  savedAt: `2026-03-${String(n).padStart(2, '0')}T12:00:00.000Z`,
  who: '',
  kept: { sheet, verdict },
});
const listOf = (of: typeof atlas, items: readonly KeptCase[], isLeft: Parameters<typeof retoldAll>[2] = () => false): RetoldList => {
  const run = retoldAll(of, items, isLeft);
  let step = run.next();
  while (!step.done) step = run.next();
  return step.value;
};

describe('what a case would now be told', () => {
  it('[P7] is nothing new under an edition that says the same, whatever it is called', () => {
    expect(retold(atlas, kept(offered(whole)))).toBeNull();
    expect(retold(renamed, kept(offered(whole)))).toBeNull();
  });

  it('[P7] says what was told, what would be, and what the atlas changed, with the reasons not given then', () => {
    const found = retold(corrected, kept(offered(whole)));
    expect(found).toMatchObject({
      weight: 'the claim stood and is ruled out',
      was: { claim: { text: 'Ling 3 Cartridge', status: 'stands' } },
      is: { claim: { text: 'Ling 3 Cartridge', status: 'ruled out' } },
    });
    expect(found?.differs).toEqual(['claim', 'honest name', 'ticket']);
    expect(found?.why[0]).toMatch(/^In the compressor wheel today’s atlas leaves other parts\..*No longer possible: ling\.$/);
    expect(found?.why.some((sentence) => sentence.includes('6 blades'))).toBe(true);
    expect(new Set(found?.why).size, 'each is said once').toBe(found?.why.length);
    const then = kept(offered(whole)).verdict;
    if (then.kind !== 'verdict') throw new Error('contradicted');
    expect(
      found?.why.some((sentence) => then.sentences.includes(sentence)),
      'what was said then is no news',
    ).toBe(false);
  });

  it('[P7] words for the ticket differ only where they were kept', () => {
    const { sheet, verdict } = kept(offered(whole));
    if (verdict.kind !== 'verdict' || verdict.ticket === undefined) throw new Error('no ticket kept');
    const { ticket, ...old } = verdict;
    expect(ticket.may.length).toBeGreaterThan(0);
    expect(
      retold(atlas, { sheet, verdict: { ...old, ticket: { ...ticket, mustNot: [...ticket.mustNot, 'Nothing else.'] } } }),
    ).toMatchObject({
      differs: ['ticket'],
      weight: 'other words for the ticket',
    });
    expect(retold(atlas, { sheet, verdict: { ...old, ticket: { may: ticket.may.slice(1), mustNot: ticket.mustNot } } })?.differs).toEqual([
      'ticket',
    ]);
    expect(retold(atlas, { sheet, verdict: old })).toBeNull();
  });

  it('[P7] an entry that contradicts another only now, and one that no longer does, are told', () => {
    const both = offered([...whole, blades(7)]);
    const contradicted = judgeCase(atlas, both);
    expect(contradicted.kind).toBe('contradiction');
    expect(retold(atlas, { sheet: both, verdict: judgeCase(atlas, offered(whole)) })).toMatchObject({
      differs: ['contradiction'],
      weight: 'entries contradict each other now',
    });
    expect(retold(atlas, { sheet: offered(whole), verdict: contradicted })?.differs).toEqual(['contradiction']);
  });
});

describe('the list to work off', () => {
  const unclaimed = sheetOf(whole);
  const off = offered([blades(5)]);

  it('[P7] holds the cases that differ and no others, what stood and is ruled out first, then those saved last', () => {
    const open = offered([marked('housing.cast-name', 'QUAYSIDE'), blades(6)]);
    const items = [
      caseOf(1, off),
      caseOf(2, unclaimed),
      caseOf(3, offered(whole)),
      caseOf(4, open),
      caseOf(5, offered(whole)),
      caseOf(6, offered([])),
    ];
    const list = listOf(corrected, items);
    expect(list).toMatchObject({ edition: 'little, second edition', judged: 6, of: 6, left: 0, complete: true });
    const weights = list.cases.map(({ retold: found }) => found?.weight ?? 'the claim is no longer ruled out, or settled');
    expect(weights.map((weight) => retoldWeights.indexOf(weight))).toEqual(
      weights.map((weight) => retoldWeights.indexOf(weight)).sort((a, b) => a - b),
    );
    expect(list.cases.slice(0, 3).map(({ number, retold: found }) => [number, found?.weight])).toEqual([
      ['2026-0005', 'the claim stood and is ruled out'],
      ['2026-0003', 'the claim stood and is ruled out'],
      ['2026-0002', 'a name that stood is ruled out'],
    ]);
    for (const { kept: one, number } of items)
      if ('sheet' in one)
        expect(
          list.cases.some((row) => row.number === number),
          number,
        ).toBe(retold(corrected, one) !== null);
    expect(listOf(atlas, items).cases).toEqual([]);
  });

  it('[P7] leaves out what was left as told as long as it would be told that, and says how many', () => {
    const items = [caseOf(1, offered(whole)), caseOf(2, unclaimed)];
    const is = retold(corrected, kept(offered(whole)))?.is;
    const left = listOf(corrected, items, (one, told) => one.number === '2026-0001' && JSON.stringify(told) === JSON.stringify(is));
    expect([left.cases.map(({ number }) => number), left.left]).toEqual([['2026-0002'], 1]);
    const other = { ...is, honest: ['another name'] };
    const again = listOf(corrected, items, (_, told) => JSON.stringify(told) === JSON.stringify(other));
    expect([again.cases.length, again.left], 'what would be told by now is something else').toEqual([2, 0]);
  });

  it('[P7] what today’s atlas cannot judge is listed last with what it does not know; stopped, it says how far it came', () => {
    const { verdict } = kept(unclaimed);
    const faults = ['found “impeller”, expected a slot of the atlas.'];
    const items: KeptCase[] = [{ ...caseOf(1, unclaimed), kept: { faults, verdict } }, caseOf(2, offered(whole))];
    expect(listOf(corrected, items).cases.map(({ number, faults: told }) => [number, told])).toEqual([
      ['2026-0002', []],
      ['2026-0001', faults],
    ]);
    const run = retoldAll(corrected, items, () => false);
    expect(run.next().value).toEqual({ judged: 1, of: 2 });
    expect(run.next(true)).toMatchObject({ done: true, value: { complete: false, judged: 1, of: 2 } });
  });
});
