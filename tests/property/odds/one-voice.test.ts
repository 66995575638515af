import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  type Advice,
  type Answer,
  adviceOf,
  answer,
  type CompiledAtlas,
  checkEffects,
  mayStop,
  type Odds,
  oddsOf,
  type Sheet,
  type Verdict,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { demo, demoPack } from '../../unit/seed/demo-atlas.ts';

const found = demoPack.sheets.filter((sheet) => sheet.kind === 'found');

/** A sample sheet of the demo world, part of it entered, claimed as it is, as another is, or as nothing. */
const ofSamples = (seed: number): Sheet => {
  const dice = new Dice(seed);
  const base = dice.one(found);
  const share = dice.whole(0, 10);
  const { claimed: _, claimedMaker: __, ...rest } = base;
  const by = dice.one([base, base, dice.one(found), null]);
  return {
    ...rest,
    id: `voice-${seed}` as Sheet['id'],
    observations: base.observations.filter(() => dice.whole(1, 10) <= share),
    ...(by?.claimed === undefined ? {} : { claimed: by.claimed }),
    ...(by?.claimedMaker === undefined ? {} : { claimedMaker: by.claimedMaker }),
  } as Sheet;
};

interface Voices {
  readonly sheet: Sheet;
  readonly atlas: CompiledAtlas;
  readonly verdict: Verdict;
  readonly odds: Odds;
  readonly advice: Advice;
}

const voicesOf = (atlas: CompiledAtlas, sheet: Sheet): Voices | null => {
  const verdict: Answer = answer(atlas, sheet);
  const odds = oddsOf(atlas, sheet);
  const advised = adviceOf(atlas, sheet);
  if (verdict.kind === 'contradiction' || odds.kind !== 'odds' || advised === null) return null;
  return { sheet, atlas, verdict, odds, advice: advised.advice };
};

const nameIn = (verdict: Verdict, id: string) => verdict.names.find(({ name }) => name.id === id);

/** What all three must keep to. */
const oneVoice = ({ sheet, atlas, verdict, odds, advice }: Voices): void => {
  const statusOf = new Map<string, Set<string>>();
  for (const { name, status } of verdict.names) statusOf.set(name.text, (statusOf.get(name.text) ?? new Set()).add(status));
  const { ifRight } = odds;
  // By its words too: what the customer is told of one text holds of the same text in the odds.
  for (const { text, names, stands } of ifRight?.names ?? []) {
    const said = statusOf.get(text);
    if (said !== undefined) expect([...said], text).not.toEqual(['ruled out']);
    for (const name of names) expect(nameIn(verdict, name)?.status, name).not.toBe('ruled out');
    expect(stands).toBe(names.every((name) => nameIn(verdict, name)?.status === 'stands'));
  }
  if (sheet.observations.every(({ sure }) => sure.kind === 'told') && sheet.absent.length === 0) expect(ifRight?.names ?? []).toEqual([]);
  if (ifRight !== null) expect(ifRight.names.length > 0).toBe(ifRight.among.kind === 'names');

  const [first] = ifRight?.names ?? [];
  const honest = verdict.honest.map((id) => nameIn(verdict, id)?.name);
  if (first !== undefined && honest[0]?.rung !== 'parts' && verdict.open.length === 0 && !honest.some((name) => name?.text === first.text))
    expect(first.names.some((name) => verdict.honest.includes(name)) || first.stands, `${honest[0]?.text} beside ${first.text}`).toBe(true);

  if (advice.kind === 'stop') {
    expect(mayStop(atlas, { ...sheet })?.kind).toBe('you may stop');
    expect(advice).not.toHaveProperty('check');
    expect(verdict.claim?.restsOn ?? []).toEqual([]);
  }
  if ('check' in advice) {
    expect(advice.settles).not.toMatch(/undefined|null|NaN/);
    const effects = checkEffects(atlas, sheet, advice.check.feature);
    if (effects !== null) {
      if (advice.kind === 'look' && effects.changes === false)
        expect(advice.settles).not.toMatch(/is out[;.]|stands[;.]|the honest name is/);
      if (/ is out[;.]/.test(advice.settles)) expect(effects.outcomes.some(({ claim }) => claim === 'ruled out')).toBe(true);
      if (/ is open again[;.]/.test(advice.settles)) expect(effects.outcomes.some(({ claim }) => claim === 'open')).toBe(true);
      for (const [, name] of advice.settles.matchAll(/the honest name is ([^;]+?)[;.]/g))
        expect(effects.outcomes.some(({ honest: then }) => then.some(({ text }) => name?.includes(text)))).toBe(true);
    }
    if (/if it reads the same, you may stop|you may stop/i.test(advice.settles)) {
      const last = sheet.observations.findLast(({ id }) => advice.check.again.includes(id));
      const twice = { ...sheet, observations: [...sheet.observations, { ...(last as object), id: 'twice' } as never] };
      expect(adviceOf(atlas, twice)?.advice.kind).toBe('stop');
    }
  }
};

it('[Q1] of sample sheets, in part entered and claimed as this or that: odds, verdict and next check say one thing', () => {
  const tally: Record<string, number> = {};
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 100_000 }), (seed) => {
      const voices = voicesOf(demo, ofSamples(seed));
      if (voices === null) return;
      for (const key of [voices.advice.kind, voices.odds.ifRight?.among.kind ?? 'cannot be right']) tally[key] = (tally[key] ?? 0) + 1;
      oneVoice(voices);
    }),
    { numRuns: Number(process.env.KINPLATE_RUNS ?? 30), seed: 5 },
  );
  console.info(`one voice: ${JSON.stringify(tally)}`);
  expect(tally.look).toBeGreaterThan(10);
  expect(tally.names).toBeGreaterThan(10);
});
