import { expect, test } from 'vitest';
import {
  answer,
  asId,
  checkEffects,
  compileAtlas,
  explain,
  type FeatureId,
  judgeCase,
  keyOf,
  mayStop,
  nextCheck,
  type OddsAnswer,
  oddsOf,
  type Progress,
  planChecks,
  questionSheetOf,
  type Sheet,
  type SlotId,
  slotOptions,
  tellApart,
  type Verdict,
} from '../../../reasoner/index.ts';
import { demoAtlas, demoPack } from '../seed/demo-atlas.ts';

/** Called at each pulse of the atlas below, with how many there were before. */
let atPulse: (before: number, progress?: Progress) => void = () => {};
let pulses = 0;
const beating = compileAtlas({ ...demoAtlas }, (progress) => {
  atPulse(pulses, progress);
  pulses += 1;
});
const still = compileAtlas({ ...demoAtlas });

const sheets = demoPack.sheets;
const found = sheets.find(({ id }) => id === 's19-no-water') as Sheet;
const planned = sheets.find(({ kind }) => kind === 'planned') as Sheet;
const odds = (atlas: typeof still, sheet: Sheet) => oddsOf(atlas, { ...sheet }) as Exclude<OddsAnswer, { kind: 'contradiction' }>;
const check = odds(still, found).checks.find(({ again }) => again.length === 0)?.feature as FeatureId;
const ruledOut = (answer(still, found) as Verdict).names.filter(({ status }) => status === 'ruled out').map(({ name }) => name.id);

const long: Readonly<Record<string, (atlas: typeof still) => unknown>> = {
  'a verdict': (atlas) => answer(atlas, found),
  'an explanation': (atlas) => explain(atlas, found, ruledOut[0] as (typeof ruledOut)[number], { conflicts: 300, questions: 3000 }),
  odds: (atlas) => [odds(atlas, found), nextCheck(atlas, found, odds(atlas, found))],
  'whether one may stop': (atlas) => mayStop(atlas, { ...found }),
  'what a check would do': (atlas) => checkEffects(atlas, { ...found }, check),
  'a course of checks': (atlas) => planChecks(atlas, { ...found }),
  'a key': (atlas) => keyOf(atlas, { level: 'families', scope: {} }),
  'telling apart': (atlas) =>
    tellApart(
      atlas,
      atlas.data.families.slice(0, 3).map(({ id }) => ({ kind: 'family', id })),
    ),
  'options of a slot': (atlas) => slotOptions(atlas, planned, asId<SlotId>('compressor-housing')),
  'a sheet of questions': (atlas) => questionSheetOf(atlas, { number: 3, count: 6, families: null, kinds: null }),
  'a case': (atlas) => judgeCase(atlas, found),
};

class Stop extends Error {}

/** The first of so many pulses and the last, and some between. */
const someOf = (all: number): ReadonlySet<number> =>
  new Set([0, 1, 2, ...Array.from({ length: 9 }, (_, i) => Math.floor((i * all) / 9)), all - 1].filter((at) => at < all));

test.each(Object.entries(long))(
  '[B2] %s stopped at any pulse leaves nothing behind: asked again it is what it would have been',
  (_what, ask) => {
    const expected = ask(still);
    const asked = (atlas: typeof still): number => {
      pulses = 0;
      expect(ask(atlas)).toEqual(expected);
      return pulses;
    };
    const stopped = (atlas: typeof still, stop: number, all: number): void => {
      pulses = 0;
      atPulse = (before) => {
        if (before >= stop) throw new Stop();
      };
      expect(() => ask(atlas)).toThrow(Stop);
      atPulse = () => {};
      expect(ask(atlas), `stopped at pulse ${stop} of ${all}`).toEqual(expected);
    };
    const compiled = () =>
      compileAtlas(still.data, (progress) => {
        atPulse(pulses, progress);
        pulses += 1;
      });
    // What is worked out once for an atlas beats the first time only.
    const first = asked(compiled());
    asked(beating);
    const later = asked(beating);
    expect(later, 'it beats').toBeGreaterThan(0);
    for (const stop of someOf(first)) stopped(compiled(), stop, first);
    for (const stop of someOf(later)) stopped(beating, stop, later);
  },
);

test('[B4] a long explanation tells how many reasons it has, each time one is found, and nothing smaller than before', () => {
  const told: number[] = [];
  atPulse = (_before, progress) => {
    if (progress?.what === 'reasons') told.push(progress.done);
  };
  const name = ruledOut.find((id) => (explain(still, found, id).conflicts?.found.length ?? 0) > 3) as (typeof ruledOut)[number];
  told.length = 0;
  const explained = explain(beating, found, name);
  atPulse = () => {};
  expect(told.at(-1)).toBe(explained.conflicts?.found.length);
  expect(told).toEqual([...told].sort((a, b) => a - b));
});
