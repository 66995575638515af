import { expect, test } from 'vitest';
import {
  type Atlas,
  asId,
  type CasesWould,
  type CaseToJudge,
  type CompiledAtlas,
  casesWould,
  compileAtlas,
  type HoldSheet,
  judgeCase,
  type Sheet,
  type SheetId,
} from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from './little-atlas.ts';

const before = compileAtlas(littleAtlas);
const editionWith = (change: (plain: Atlas) => Atlas) => compileAtlas({ ...change(littleAtlas), edition: 'as it would be' });
/** The wheel of the claimed model would have five blades. */
const corrected = editionWith((plain) => ({
  ...plain,
  parts: plain.parts.map((part) =>
    part.id === 'wheel/ling' ? { ...part, facts: { ...part.facts, 'wheel.blades': { kind: 'count', from: 5, to: 5 } } } : part,
  ),
}));
const whole = [
  marked('housing.cast-name', 'QUAYSIDE'),
  measured('housing.bore', 50.6),
  blades(6),
  chose('shaft.weld', 'beam'),
  marked('plate.number', '5-50'),
];
const offered = sheetOf(whole, { claimed: 'Ling 3 Cartridge', claimedMaker: asId('quayside') });
const caseOf = (n: number, saved: Sheet): CaseToJudge => ({
  sheet: asId<SheetId>(`s${n}`),
  number: `2026-000${n}`,
  title: `unit ${n}`,
  entry: 1,
  savedAt: `2026-03-0${n}T12:00:00.000Z`,
  who: '',
  saved,
});
const allKnown: HoldSheet = (_, sheet) => ({ sheet });
/** An atlas that does not know the sheets of these titles. */
const allBut =
  (of: CompiledAtlas, ...titles: readonly string[]): HoldSheet =>
  (atlas, sheet) =>
    atlas === of && titles.includes(sheet.title) ? { faults: [`${sheet.title} names what is not there.`] } : { sheet };
const told = (after: CompiledAtlas, cases: readonly CaseToJudge[], hold: HoldSheet = allKnown): CasesWould => {
  const run = casesWould(before, after, cases, hold);
  let step = run.next();
  while (!step.done) step = run.next();
  return step.value;
};
const titled = (title: string, sheet = offered): Sheet => ({ ...sheet, title });

test('[H3] a case that would be told otherwise is told with both, and where other parts would remain; the others are counted', () => {
  const seven = sheetOf([blades(7)], { claimed: 'Ling 3 Cartridge', claimedMaker: asId('quayside') });
  const found = told(corrected, [caseOf(1, offered), caseOf(2, seven), caseOf(3, offered)]);
  expect(found).toMatchObject({ same: 1, neither: 0, judged: 3, of: 3, complete: true });
  expect(
    found.cases.map(({ number, how }) => [number, how]),
    'the case saved last first',
  ).toEqual([
    ['2026-0003', 'told otherwise'],
    ['2026-0001', 'told otherwise'],
  ]);
  const [first] = found.cases;
  if (first?.how !== 'told otherwise') throw new Error('not told otherwise');
  expect([first.is.claim?.status, first.would.claim?.status, first.weight]).toEqual([
    'stands',
    'ruled out',
    'the claim stood and is ruled out',
  ]);
  expect(first.differs).toContain('honest name');
  expect(first.slots[0]).toEqual({ slot: 'wheel', name: 'compressor wheel', gone: ['ling'], come: [] });
  expect(told(before, [caseOf(1, offered)])).toMatchObject({ cases: [], same: 1 });
});

test('[H3] what only one of the two atlases can judge is told apart, worst first; what neither can is counted', () => {
  const cases = [caseOf(4, titled('new')), caseOf(3, titled('old')), caseOf(2, titled('neither')), caseOf(1, offered)];
  const hold: HoldSheet = (atlas, sheet) => {
    const [there, then] = [allBut(before, 'new', 'neither')(atlas, sheet), allBut(corrected, 'old', 'neither')(atlas, sheet)];
    return 'faults' in there ? there : then;
  };
  const found = told(corrected, cases, hold);
  expect(found).toMatchObject({ same: 0, neither: 1, judged: 4 });
  expect(found.cases.map(({ how }) => how)).toEqual(['told otherwise', 'judged no more', 'judged again']);
  const [, gone, come] = found.cases;
  if (gone?.how !== 'judged no more' || come?.how !== 'judged again') throw new Error('told as something else');
  const verdict = judgeCase(before, offered);
  expect(gone.is.honest).toEqual(verdict.kind === 'verdict' ? verdict.honest.map(({ text }) => text) : null);
  expect([gone.faults, come.faults]).toEqual([['old names what is not there.'], ['new names what is not there.']]);
  const then = judgeCase(corrected, offered);
  expect(come.would.honest).toEqual(then.kind === 'verdict' ? then.honest.map(({ text }) => text) : null);
});

test('[H3] it tells how far it is after each case, and stopped has what was judged until then', () => {
  const run = casesWould(before, corrected, [caseOf(1, offered), caseOf(2, offered), caseOf(3, offered)], allKnown);
  expect(run.next().value).toEqual({ judged: 1, of: 3 });
  expect(run.next().value).toEqual({ judged: 2, of: 3 });
  const { done, value } = run.next(true);
  expect([done, value]).toMatchObject([true, { judged: 2, of: 3, complete: false }]);
});
