import { describe, expect, test } from 'vitest';
import { verdictText } from '../../../electron/command-line/verdict-text.ts';
import { answer, asId, type Conflict, planBuild, type Sheet } from '../../../reasoner/index.ts';
import { independentReasons } from '../../../reasoner/why/independent-reasons.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

/** What holds of the reasons and swaps of every sheet that comes with the program. */
describe('over every sample', () => {
  test('[K1] in no sheet that comes with the program an absence or the plate leads where the parts give a reason', () => {
    const plate = demo.data.slots.filter(({ group }) => group === 'plate').map(({ id }) => id as string);
    let led = 0;
    for (const sheet of demoPack.sheets) {
      const verdict = sheet.kind === 'found' ? answer(demo, sheet) : null;
      if (verdict?.kind !== 'verdict') continue;
      const slotOf = (id: string) => sheet.observations.find((entry) => entry.id === id)?.slot ?? '';
      const tells = ({ members }: Conflict): boolean =>
        members.every((member) => {
          if (member.kind === 'absent') return false;
          if (member.kind === 'observation') return !plate.includes(slotOf(member.observation));
          return member.kind === 'joint' || !plate.includes(member.slot);
        });
      for (const conflicts of [verdict.unit, verdict.names.find(({ name }) => name.id === verdict.claim?.name)?.conflicts]) {
        const [first, ...others] = conflicts?.found ?? [];
        if (!first || tells(first)) {
          if (others.some((other) => !tells(other))) led += 1;
          continue;
        }
        expect(others.filter(tells), sheet.id).toEqual([]);
      }
    }
    // Sheets in which what is missing could have led.
    expect(led).toBeGreaterThan(8);
  });

  test('[K1] no more than there are entries, over every sample with a claim ruled out', () => {
    for (const sheet of demoPack.sheets) {
      if (sheet.kind !== 'found') continue;
      const verdict = answer(demo, sheet);
      if (verdict.kind !== 'verdict') continue;
      const conflicts = verdict.names.find(({ name }) => name.id === verdict.claim?.name)?.conflicts;
      if (!conflicts) continue;
      expect(conflicts.independent).toEqual(independentReasons(conflicts.found));
      expect(conflicts.independent.count).toBeLessThanOrEqual(sheet.observations.length + Math.min(1, sheet.absent.length));
      expect(conflicts.independent.count).toBeGreaterThan(0);
    }
  });

  test('[S1] no text advises to exchange one, of a found unit or of a build on paper', () => {
    let said = 0;
    const sheets = [
      ...demoPack.sheets.filter(({ kind }) => kind === 'found'),
      ...demoPack.sheets
        .filter(({ kind }) => kind === 'found')
        .map(
          (sheet): Sheet => ({
            ...sheet,
            absent: [...sheet.absent, asId('nameplate')],
            observations: sheet.observations.filter(({ slot }) => slot !== 'nameplate'),
          }),
        ),
    ];
    for (const sheet of sheets) {
      const verdict = answer(demo, sheet);
      if (verdict.kind !== 'verdict') continue;
      const text = verdictText(verdict, sheet, demo.data);
      expect(text).not.toMatch(/exchange[^\n;]*nameplate/);
      if (text.includes('nameplate: only the maker can confirm or issue one')) said += 1;
    }
    expect(said).toBeGreaterThan(10);
    for (const sheet of demoPack.sheets) {
      if (sheet.kind !== 'planned') continue;
      const plan = planBuild(demo, sheet);
      if (plan.kind !== 'plan') continue;
      for (const { parts } of plan.swaps?.found ?? []) expect(parts.map(({ slot }) => slot)).not.toContain('nameplate');
    }
  });
});
