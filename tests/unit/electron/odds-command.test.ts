import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { type Advised, adviceOf, nextCheck, type Odds, oddsOf } from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';
import { holding } from './holding.ts';
import { kinplateRun } from './kinplate-run.ts';

const pack = path.join(import.meta.dirname, '../../../seed-data/demo-pack');
const kinplate = (...args: string[]) => kinplateRun(args, { shipped: path.dirname(pack), input: () => '' });
const odds = async (sheet: string, ...more: string[]) => kinplate('odds', '--data', await holding(pack), '--saved', sheet, ...more);

describe('kinplate odds', () => {
  test('[Q1] what is likely if every entry is right and if one is wrong, the next check and whether one may stop, in words', async () => {
    const { code, out } = await odds('s19-no-water');
    expect(code).toBe(exitCodes.stands);
    const [right, wrong] = out.split('If an entry is wrong') as [string, string];
    expect(right).toMatch(
      /If every entry is right \(\d+ %\).*\n +The entries rule out every name of the atlas: what is left is a list of parts\.\n/,
    );
    expect(right).not.toContain('99.9 %');
    expect(right).not.toContain('Petrel 13');
    expect(wrong).toMatch(/9\d % {2}the water ports of the bearing housing, entered as not there\n/);
    expect(wrong).toMatch(/most likely: core of Merrowby Petrel 13 .*\. The entries as they stand rule that out\./);
    expect(wrong).toContain('Next check: Read again: the water ports of the bearing housing, entered as not there. (1 min)');
    // That one may stop is said of its reading the same, and not beside it.
    expect(wrong).toContain('\n  If it reads the same, you may stop; if it is there, core of Merrowby Petrel 13 Cartridge');
    expect(wrong).not.toContain('You may stop:');
    expect(wrong).toContain('not for the customer');
  });

  test('[Q1] as JSON it is the answer of the reasoner, whole', async () => {
    const { out } = await odds('s08-welded-outlet', '--format', 'json');
    const sheet = demoPack.sheets.find(({ id }) => id === 's08-welded-outlet') as never;
    const own = oddsOf(demo, sheet) as Odds;
    const { advice, stopping } = adviceOf(demo, sheet) as Advised;
    const whole = { odds: { ...own, edition: '' }, next: nextCheck(demo, sheet, own), stopping, advice };
    expect({ ...JSON.parse(out), odds: { ...JSON.parse(out).odds, edition: whole.odds.edition } }).toEqual(
      JSON.parse(JSON.stringify(whole)),
    );
  });

  test('[O6] [J2] entries that contradict each other are not weighed; a planned build is refused, and so is a command line that says too much', async () => {
    const contradicted = await odds('s10-two-counts');
    expect(contradicted.code).toBe(exitCodes.contradiction);
    expect(contradicted.out).toContain('Nothing is weighed');
    expect(JSON.parse((await odds('s10-two-counts', '--format', 'json')).out)).toMatchObject({
      odds: { kind: 'contradiction' },
      next: null,
    });
    const planned = demoPack.sheets.find(({ kind }) => kind === 'planned')?.id as string;
    expect((await odds(planned)).code).toBe(exitCodes.badInput);
    expect((await kinplate('odds', 'more', '--pack', pack, '--saved', 's19-no-water')).code).toBe(exitCodes.usage);
    expect((await kinplate('odds', '--pack', pack)).code).toBe(exitCodes.usage);
  });
});
