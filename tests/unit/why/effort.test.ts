import { describe, expect, it } from 'vitest';
import { dualize } from '../../../reasoner/algebra/dualize.ts';
import { answer, type Conflicts, type Sheet, type Verdict } from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';
import { wholeUnit } from './whole-unit.ts';

const everything = { conflicts: 100_000, questions: 10_000_000 };
const verdictOn = (sheet: Sheet, effort?: typeof everything): Verdict => {
  const found = answer(demo, sheet, effort === undefined ? {} : { effort });
  if (found.kind !== 'verdict') throw new Error(`${sheet.id} contradicts itself`);
  return found;
};
const claimed = (verdict: Verdict): Conflicts | null =>
  verdict.names.find(({ name }) => name.id === verdict.claim?.name)?.conflicts ?? null;
const entriesOf = ({ found }: Conflicts) =>
  found.map(({ members }) => members.flatMap((member) => (member.kind === 'observation' ? [member.observation as string] : [])));

describe('how much is looked for', () => {
  it('[K1] every sheet that comes with the program is searched to its end', () => {
    let searched = 0;
    for (const sheet of demoPack.sheets) {
      if (sheet.kind !== 'found' || answer(demo, sheet).kind !== 'verdict') continue;
      const [usual, whole] = [verdictOn(sheet), verdictOn(sheet, everything)];
      for (const [some, all] of [
        [usual.unit, whole.unit],
        [claimed(usual), claimed(whole)],
      ]) {
        expect(some?.complete ?? true, sheet.id).toBe(true);
        expect(some, sheet.id).toEqual(all);
        searched += some?.found.length ?? 0;
      }
    }
    expect(searched).toBeGreaterThan(250);
  });

  it('[K1] [O7] a true unit with one wrong entry among a hundred and fifty: one reason, and everything rests on that entry', () => {
    const verdict = verdictOn(wholeUnit(demo, 'petrel-13-cartridge', { 'turbine-wheel-blades': 'rowan-iv-18' }));
    expect(verdict.claim).toMatchObject({ status: 'ruled out', restsOn: ['o:turbine-wheel-blades'] });
    expect(verdict.claim?.sentences).toEqual([
      'Everything against Merrowby Petrel 13 Cartridge rests on this reading: the turbine wheel has 11 blades. Look again.',
      'Merrowby Petrel 13 Cartridge is ruled out, for one reason.',
    ]);
    for (const entries of entriesOf(claimed(verdict) as Conflicts)) expect(entries).toContain('o:turbine-wheel-blades');
  });

  it('[K1] four wrong entries are four independent reasons, found before the search stops; it stops, and says so', () => {
    const wrong = {
      'compressor-housing-area-ratio': 'gannet-20',
      'compressor-wheel-exducer': 'petrel-17-cartridge',
      'bearing-housing-bearing-bore': 'rowan-iv-18',
      'turbine-wheel-blades': 'rowan-iv-18',
    };
    const sheet = wholeUnit(demo, 'petrel-13-cartridge', wrong);
    expect(sheet.observations.length).toBeGreaterThan(110);
    const verdict = verdictOn(sheet);
    const bad = Object.keys(wrong).map((feature) => `o:${feature}`);
    for (const conflicts of [verdict.unit, claimed(verdict)]) {
      expect(conflicts?.complete).toBe(false);
      expect(conflicts?.independent).toEqual({ count: 4, exact: true });
      const entries = entriesOf(conflicts as Conflicts);
      // No reason without a wrong entry, and one for each that holds no other.
      for (const each of entries) expect(each.some((entry) => bad.includes(entry))).toBe(true);
      for (const entry of bad)
        expect(entries.some((each) => each.includes(entry) && bad.every((other) => other === entry || !each.includes(other)))).toBe(true);
    }
    expect(verdict.claim?.sentences[0]).toBe('Merrowby Petrel 13 Cartridge is ruled out, for four independent reasons.');
    expect(verdict.claim?.restsOn).toEqual([]);
  });

  it('[K1] the same sheet searched again is searched as far', () => {
    const sheet = wholeUnit(demo, 'gannet-12', { 'shaft-running': 'yawl-240-port', 'turbine-wheel-blades': 'petrel-13-cartridge' });
    expect(verdictOn(sheet)).toEqual(verdictOn(sheet));
  });
});

describe('the bound on a search', () => {
  it('[K1] one question says whether nothing at all can be kept, and one more that all can', () => {
    expect(dualize(3, () => true, { conflicts: 10, questions: 2 })).toEqual({ conflicts: [], relaxations: [[]], complete: true });
    expect(dualize(3, () => true, { conflicts: 10, questions: 1 })).toEqual({ conflicts: [], relaxations: [], complete: false });
    expect(dualize(3, () => false, { conflicts: 10, questions: 1 })).toEqual({ conflicts: [[]], relaxations: [], complete: true });
  });

  it('[K1] what waits to be asked counts as asked: it stops as soon as it cannot end within its questions', () => {
    // Four conflicts of three labels each, known beforehand: eighty-one ways to hit them all, each of which is a question.
    const known = [0, 1, 2, 3].map((group) => [0, 1, 2].map((i) => group * 3 + i));
    const search = (questions: number) => {
      let asked = 0;
      const { complete, conflicts } = dualize(
        12,
        (kept) => {
          asked += 1;
          return known.every((set) => set.some((label) => kept[label] === 0));
        },
        { conflicts: 1000, questions },
        known,
      );
      return { complete, asked, conflicts };
    };
    expect(search(82)).toEqual({ complete: true, asked: 82, conflicts: known });
    expect(search(81)).toEqual({ complete: false, asked: 1, conflicts: known });
  });

  it('[K1] a conflict once begun is shrunk to its end, and then it stops', () => {
    let asked = 0;
    const pairs = (kept: Uint8Array): boolean => {
      asked += 1;
      return kept.reduce((sum, flag) => sum + flag, 0) < 2;
    };
    const { complete, conflicts } = dualize(8, pairs, { conflicts: 1000, questions: 40 });
    expect({ complete, asked, found: conflicts.length }).toEqual({ complete: false, asked: 42, found: 9 });
    for (const conflict of conflicts) expect(conflict).toHaveLength(2);
  });
});
