import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asId,
  type CaseFacts,
  linesOf,
  type Report,
  type ReportBlock,
  type ReportLine,
  type ReportSectionId,
  type Sheet,
} from '../../../reasoner/index.ts';
import { demo, demoAtlas, demoPack } from '../seed/demo-atlas.ts';
import { emptySheet, type Ground, groundOf, memberWords, reportOn, tallyWords } from './proof.ts';

const found = demoPack.sheets.filter(({ kind }) => kind === 'found');
const sheetOf = (id: string): Sheet => found.find((sheet) => sheet.id.startsWith(id)) as Sheet;

const facts: CaseFacts = {
  number: '2026-0117',
  date: '2026-11-24',
  customer: 'Harbour pilot, Port Hallow',
  lookedBy: 'Ines',
  photographs: [
    { hash: 'a', caption: 'inlet', slot: asId('compressor-housing'), observation: null, width: 800, height: 600 },
    { hash: 'b', caption: '', slot: null, observation: sheetOf('s01').observations[0]?.id ?? null, width: 600, height: 800 },
  ],
};

const blocksOf = (report: Report, id: ReportSectionId): readonly ReportBlock[] =>
  report.sections.find((each) => each.id === id)?.blocks ?? [];
const textsOf = (blocks: readonly ReportBlock[]): string[] => linesIn(blocks).map(({ text }) => text);
const linesIn = (blocks: readonly ReportBlock[]): ReportLine[] =>
  blocks.flatMap((block) => {
    switch (block.kind) {
      case 'paragraph':
        return [block.line];
      case 'list':
      case 'ticket':
        return [...block.lines];
      case 'entries':
        return block.rows.flatMap(({ lines }) => lines);
      case 'graph':
        return [block.caption];
      case 'photographs':
        return block.photographs.map(({ caption }) => caption);
      default:
        return block satisfies never;
    }
  });

/** Everything the atlas gives a name to: what no line may bring in by itself. */
const atlasNames = [
  ...demoAtlas.makers.flatMap(({ name, tradeNames }) => [name, ...tradeNames.map((each) => each.name)]),
  ...demoAtlas.families.map(({ name }) => name),
  ...demoAtlas.models.map(({ name }) => name),
];

/** Walks every line back to the proof, and holds its numbers and names to what the members there hold. */
const holdToProof = (ground: Ground, report: Report): void => {
  for (const line of linesOf(report)) {
    expect(line.because.length, line.text).toBeGreaterThan(0);
    const words = line.because.flatMap((reason) => memberWords(ground, reason)).join('\n');
    for (const name of atlasNames) if (line.text.includes(name)) expect(words, `“${name}” in: ${line.text}`).toContain(name);
    // Pointers to numbered reasons are held to them by a test of their own.
    if (/^Reasons? \d/.test(line.text)) continue;
    const known = new Set([...(words.match(/\d+(?:\.\d+)?/g) ?? []), String(line.because.length)]);
    // A long list of letters says how many more there are (“or 2 others”), which no single part holds.
    for (const number of line.text.replace(/ or \d+ others/g, '').match(/\d+(?:\.\d+)?/g) ?? [])
      expect([...known], `${number} in: ${line.text}`).toContain(number);
  }
};

describe('nothing in the report that is not in the proof', () => {
  test.each(found.map((sheet) => [sheet.id, sheet] as const))('[K2] %s: every line walks back to a member of the answer', (_id, sheet) => {
    const ground = groundOf(demo, sheet);
    holdToProof(ground, reportOn(ground));
  });

  test('[W1] a case’s number, day, customer, looker and photographs are said as they are, and nothing is made up for those that are missing', () => {
    const ground = groundOf(demo, sheetOf('s01'), facts);
    const report = reportOn(ground);
    holdToProof(ground, report);
    expect(report.head.map(({ label, line }) => `${label}: ${line.text}`)).toEqual([
      'Case: 2026-0117',
      'Customer: Harbour pilot, Port Hallow',
      'Case opened: 24 November 2026',
      'Looked at by: Ines',
      'Offered as: Petrel 13 Cartridge, said to be Merrowby',
      'Report made: 25 November 2026',
    ]);
    expect(textsOf(blocksOf(report, 'photographs'))).toEqual(['1. compressor housing. inlet', expect.stringMatching(/^2\. compressor/)]);
    const bare = reportOn(groundOf(demo, sheetOf('s01')));
    expect(bare.head.map(({ label }) => label)).toEqual(['Offered as', 'Report made']);
    expect(blocksOf(bare, 'photographs')).toEqual([]);
  });

  test('[K2] whatever part of a sheet was entered, told or could not be seen, its report walks back', () => {
    const entered = fc.constantFrom(...found).chain((sheet) =>
      fc
        .array(fc.constantFrom('kept', 'told', 'left', 'unseen'), {
          minLength: sheet.observations.length,
          maxLength: sheet.observations.length,
        })
        .map(
          (fates): Sheet => ({
            ...sheet,
            observations: sheet.observations.flatMap((one, i) =>
              fates[i] === 'kept' ? [one] : fates[i] === 'told' ? [{ ...one, sure: { kind: 'told' } }] : [],
            ),
            unseen: [
              ...new Map(
                sheet.observations
                  .filter((_, i) => fates[i] === 'unseen')
                  .map(({ slot, feature }) => [feature, { slot, feature, why: 'could not see' as const }]),
              ).values(),
            ],
          }),
        ),
    );
    fc.assert(
      fc.property(entered, (sheet) => {
        const ground = groundOf(demo, sheet);
        holdToProof(ground, reportOn(ground));
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });

  test('[T1] a sheet with nothing on it says so and claims nothing', () => {
    const ground = groundOf(demo, emptySheet);
    const report = reportOn(ground);
    holdToProof(ground, report);
    expect(report.subtitle.text).toBe('Untitled unit');
    expect(textsOf(blocksOf(report, 'stands'))).toEqual(['No name stands for the whole: it is a turbocharger made up of parts.']);
    expect(textsOf(blocksOf(report, 'seen')).join()).toMatch(/^Nothing was entered of: compressor housing, .* and nameplate\.$/);
  });

  test('[O1] what was seen, and could not be read again when that was asked, is not said to be unsettled; what was never seen is', () => {
    const sheet = sheetOf('s01');
    const [once] = sheet.observations;
    const never = demoAtlas.features.find(({ id }) => !sheet.observations.some(({ feature }) => feature === id));
    const unseen = [once, never].map((each) => ({
      slot: each?.slot,
      feature: each === never ? never?.id : once?.feature,
      why: 'could not see',
    })) as never;
    const ground = groundOf(demo, { ...sheet, unseen });
    const report = reportOn(ground);
    holdToProof(ground, report);
    const lines = textsOf(blocksOf(report, 'seen')).filter((text) => text.startsWith('Looked for and not settled'));
    expect(lines).toEqual([expect.stringContaining(never?.name ?? '')]);
    expect(lines[0]?.split(';')).toHaveLength(1);
  });

  test('a planned build has a build sheet and no report; an answer on another sheet is refused', () => {
    const plan = demoPack.sheets.find(({ kind }) => kind === 'planned') as Sheet;
    expect(() => reportOn({ ...groundOf(demo, emptySheet), sheet: { ...plan, id: emptySheet.id } })).toThrow('build sheet');
    expect(() => reportOn({ ...groundOf(demo, emptySheet), sheet: sheetOf('s01') })).toThrow('s01');
  });
});

describe('what it says', () => {
  test.each(found.map((sheet) => [sheet.id, sheet] as const))(
    '[W1] %s: both ticket texts and the cautions, whole and word for word',
    (_id, sheet) => {
      const ground = groundOf(demo, sheet);
      const report = reportOn(ground);
      const cautions = textsOf(blocksOf(report, 'cautions'));
      for (const said of [
        /pattern part unknown/,
        /maker’s confirmation of the plate is the last word/,
        /Looks alone do not prove origin/,
        /no.* legal opinion/,
      ])
        expect(cautions.join('\n')).toMatch(said);
      expect(cautions.join('\n'), '[F5]').toMatch(/rotor turns fast enough to burst.*balanced.*burst.*oil supply.*licensed workshop/);
      if (ground.answer.kind !== 'verdict') return;
      expect(cautions).toEqual(ground.answer.cautions);
      const tickets = blocksOf(report, 'ticket').flatMap((block) => (block.kind === 'ticket' ? [block.lines.map(({ text }) => text)] : []));
      expect(tickets).toEqual([ground.answer.ticket.may.map(({ text }) => text), ground.answer.ticket.mustNot.map(({ text }) => text)]);
    },
  );

  test('[K1] the most telling reasons against the claim stand first, word for word, and that there are further ones is said without a number', () => {
    const ground = groundOf(demo, sheetOf('s09'));
    if (ground.answer.kind !== 'verdict') throw new Error('nothing was judged');
    const conflicts = ground.answer.names.find(
      ({ name }) => name.id === (ground.answer.kind === 'verdict' ? ground.answer.claim?.name : null),
    )?.conflicts?.found;
    const blocks = blocksOf(reportOn(ground), 'ruled-out');
    const numbered = blocks.filter((block) => block.kind === 'list').filter((block) => block.numbered);
    expect(numbered).toHaveLength(1);
    expect(textsOf(numbered)).toEqual(
      conflicts
        ?.filter(({ members }, at) => at === 0 || members.length <= 4)
        .slice(0, 6)
        .map(({ sentence }) => sentence),
    );
    expect(textsOf(blocks)).toContain('These say it most plainly. Whatever else shows it is kept with the sheet.');
    expect(conflicts?.length).toBeGreaterThan(6);
    expect(textsOf(blocks).join(' ')).not.toContain(String(conflicts?.length));
  });

  test('[W1] the story is the shop’s private note: it is on paper only where somebody asks for it, and nothing else hangs on that', () => {
    const sheet = { ...sheetOf('s09'), story: 'The pilot’s brother-in-law swears by it.' };
    const ground = groundOf(demo, sheet);
    const [without, with_] = [reportOn(ground, false), reportOn(ground, true)];
    expect(linesOf(without).map(({ text }) => text)).not.toContain(sheet.story);
    expect(linesOf(with_).map(({ text }) => text)).toContain(sheet.story);
    expect(linesOf(with_).filter(({ text }) => text !== sheet.story)).toEqual(linesOf(without));
  });

  test('[K2] where the unit disagrees with itself in what already rules the claim out, the numbers point at exactly those reasons', () => {
    let pointed = 0;
    for (const sheet of found) {
      const ground = groundOf(demo, sheet);
      if (ground.answer.kind !== 'verdict') continue;
      const blocks = blocksOf(reportOn(ground), 'ruled-out');
      const numbered = linesIn(blocks.filter((block) => block.kind === 'list').filter((block) => block.numbered));
      const again = linesIn(blocks).find(({ text }) => /^Reasons? \d/.test(text));
      if (again === undefined) continue;
      pointed += 1;
      const own = ground.answer.unit.found.map(({ sentence }) => sentence);
      const numbers = (again.text.match(/\d+/g) ?? []).map(Number);
      const agreeing = numbered.flatMap(({ because }, i) =>
        because.some(({ kind }) => kind === 'rule' || kind === 'absent') ? [] : [i + 1],
      );
      expect(numbers, again.text).toEqual(agreeing);
      expect(again.because.map((reason) => (reason.kind === 'conflict' ? own[reason.index] : ''))).toHaveLength(numbers.length);
    }
    expect(pointed).toBeGreaterThan(1);
  });

  test('[O1] what was told stands with the claim and never among what was seen', () => {
    const sheet = sheetOf('s01');
    const told: Sheet = { ...sheet, observations: sheet.observations.map((one) => ({ ...one, sure: { kind: 'told' } as const })) };
    const report = reportOn(groundOf(demo, told));
    expect(blocksOf(report, 'seen').filter(({ kind }) => kind === 'entries')).toEqual([]);
    const brought = blocksOf(report, 'brought').flatMap((block) => (block.kind === 'paragraph' ? [block.line] : []));
    const lines = brought.filter(({ text }) => text.startsWith('Nothing seen so far confirms or denies what was told: '));
    expect(lines.map(({ because }) => because.filter(({ kind }) => kind === 'observation').length)).toEqual([told.observations.length]);
  });

  test('[O2] every entry stands once in its slot’s row with how sure it is', () => {
    const sheet = sheetOf('s14');
    const [entries] = blocksOf(reportOn(groundOf(demo, sheet)), 'seen').filter((block) => block.kind === 'entries');
    const rows = entries?.rows ?? [];
    expect(rows.flatMap(({ lines }) => lines)).toHaveLength(sheet.observations.length);
    for (const { head, lines } of rows) {
      for (const { text, because } of lines) {
        const [reason] = because;
        const one = sheet.observations.find(({ id }) => reason?.kind === 'observation' && id === reason.observation);
        expect(demoAtlas.slots.find(({ id }) => id === one?.slot)?.name).toBe(head);
        expect(text.endsWith(`, ${one?.sure.kind}`)).toBe(true);
      }
    }
  });

  test('[N3] a name that stands is not said, even in brief, without the maker’s confirmation being the last word', () => {
    const brief = (id: string) => reportOn(groundOf(demo, sheetOf(id))).brief.at(-1)?.text;
    for (const id of ['s07', 's13'])
      expect(brief(id)).toMatch(
        /^By what was seen, this unit may be described as .*the maker’s confirmation of the plate is the last word\.$/,
      );
    expect(brief('s14')).toMatch(/^By what was seen, .*cannot be excluded by eye, and there is no plate for the maker to confirm\.$/);
  });

  test('[O6] entries that disagree are named, and nothing is judged', () => {
    const ground = groundOf(demo, sheetOf('s10'));
    const report = reportOn(ground);
    expect(report.sections.map(({ id }) => id)).toEqual(['brought', 'seen', 'open', 'cautions']);
    expect(textsOf(blocksOf(report, 'open'))).toEqual(
      ground.answer.kind === 'contradiction'
        ? ground.answer.contradictions.flatMap(({ sentence, meanings }) => [sentence, ...(meanings ?? []).map((each) => each.sentence)])
        : [],
    );
    expect(report.brief.map(({ text }) => text).join()).toContain('Nothing is judged');
  });

  test('[N1] the count of models is the verdict’s own', () => {
    for (const sheet of found) {
      const ground = groundOf(demo, sheet);
      if (ground.answer.kind !== 'verdict') continue;
      const [all, stands, out, open] = tallyWords(ground.answer) as [string, string, string, string];
      const said = textsOf(blocksOf(reportOn(ground), 'ruled-out')).find((text) => text.startsWith('Of the')) as string;
      expect(said).toContain(`Of the ${all} models`);
      expect(said).toContain(out === all ? 'every one' : out === '0' ? 'none' : `rules out ${out} `);
      if (open !== '0') expect(said).toContain(`${open} `);
      if (stands !== '0') expect(said).toContain(`${stands} stand`);
    }
  });
});
