import { describe, expect, test } from 'vitest';
import type { PhotoFile } from '../../../electron/print/photographs.ts';
import { reportPdf } from '../../../electron/print/report-pdf.ts';
import { runsOf } from '../../../electron/print/typeface.ts';
import { asId, linesOf, type ObservationId, type Report, type Sheet, type SlotId } from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';
import { groundOf, reportOn } from './proof.ts';
import { bare, readPdf } from './read-pdf.ts';
import { smallJpeg, smallPng } from './small-pictures.ts';

const found = demoPack.sheets.filter(({ kind }) => kind === 'found');
const sheetOf = (id: string): Sheet => found.find((sheet) => sheet.id.startsWith(id)) as Sheet;
const made = new Date('2026-11-25T10:00:00Z');
const pdfOf = (report: Report, photo: (hash: string) => PhotoFile | null = () => null): Promise<Uint8Array> =>
  reportPdf(report, { made, photo: async (hash) => photo(hash) });

/** Every line of the report, and every heading and label, is on the paper. */
const holdAll = (report: Report, text: string): void => {
  const paper = bare(text);
  for (const line of linesOf(report)) expect(paper, line.text).toContain(bare(line.text));
  for (const { heading, blocks } of report.sections) {
    expect(paper).toContain(bare(heading));
    for (const block of blocks) if (block.kind === 'ticket') expect(paper).toContain(bare(block.title));
  }
  for (const { label, line } of report.head) expect(paper).toContain(bare(`${label}: ${line.text}`));
};

describe('the report on paper', () => {
  test.each(found.map((sheet) => [sheet.id, sheet] as const))(
    '[W1] %s: one page or two, and every sentence of the document is on them',
    async (_id, sheet) => {
      const report = reportOn(
        groundOf(demo, sheet, { number: '2026-0117', date: '2026-11-24', customer: 'Harbour pilot', lookedBy: 'Ines' }),
        false,
      );
      const { pages, text } = await readPdf(await pdfOf(report));
      expect(pages).toBeLessThanOrEqual(2);
      holdAll(report, text.join('\n'));
      text.forEach((page, i) => {
        expect(page, 'the foot of each page').toContain(`Page ${i + 1} of ${pages}`);
        expect(bare(page)).toContain(bare(report.foot.text));
      });
    },
  );

  test('[W1] its title, language, outline and tags are those of the document', async () => {
    const report = reportOn(groundOf(demo, sheetOf('s01')));
    const { title, language, outline, tags } = await readPdf(await pdfOf(report));
    expect(title).toBe('Report on a turbocharger: Known housing, nameless core');
    expect(language).toBe('en-GB');
    expect(outline).toEqual(report.sections.map(({ heading }) => heading));
    const count = (role: string) => tags.filter((tag) => tag.role === role).length;
    expect(count('H1')).toBe(1);
    expect(count('H2')).toBe(report.sections.length);
    const blocks = report.sections.flatMap((section) => section.blocks);
    expect(count('LI')).toBe(
      blocks.reduce((sum, block) => sum + (block.kind === 'list' || block.kind === 'ticket' ? block.lines.length : 0), 0),
    );
    expect(count('TR')).toBe(blocks.reduce((sum, block) => sum + (block.kind === 'entries' ? block.rows.length : 0), 0));
    const graph = blocks.find((block) => block.kind === 'graph');
    expect(tags.filter(({ role }) => role === 'Figure').map(({ alt }) => alt)).toEqual([graph?.kind === 'graph' ? graph.caption.text : '']);
  });

  test('[K2] the reasons are drawn as strokes, not as an image, and every letter is of an embedded font', async () => {
    const bytes = Buffer.from(await pdfOf(reportOn(groundOf(demo, sheetOf('s01'))))).toString('latin1');
    expect(bytes).not.toMatch(/\/Subtype\s*\/Image/);
    const fonts = [...bytes.matchAll(/\/BaseFont \/([^\s/]+)/g)].map(([, name]) => name);
    expect(fonts.length).toBeGreaterThan(0);
    for (const name of fonts) expect(name).toMatch(/^[A-Z]{6}\+SourceSans3/);
    expect(bytes.match(/\/FontFile2/g)?.length).toBeGreaterThanOrEqual(3);
  });

  test('[W1] photographs are on it with their captions; one that is gone, damaged or in a form a PDF cannot hold is said to be', async () => {
    const photographs = ['j', 'p', 'w', 'd', 'gone'].map((hash) => ({
      hash,
      caption: `view ${hash}`,
      slot: asId<SlotId>('turbine-wheel'),
      observation: null,
      width: 24,
      height: 16,
    }));
    const report = reportOn(groundOf(demo, sheetOf('s10'), { photographs }));
    const kept: Record<string, PhotoFile> = {
      j: { type: 'image/jpeg', data: smallJpeg },
      p: { type: 'image/png', data: smallPng },
      w: { type: 'image/webp', data: new Uint8Array(4) },
      d: { type: 'image/jpeg', data: new Uint8Array([0xff, 0xd8, 0xff, 0xd9]) },
    };
    const bytes = await pdfOf(report, (hash) => kept[hash] ?? null);
    const { text, tags } = await readPdf(bytes);
    holdAll(report, text.join('\n'));
    for (const said of ['kept as WebP', 'cannot be read', 'not kept any more']) expect(text.join('\n')).toContain(said);
    expect(
      Buffer.from(bytes)
        .toString('latin1')
        .match(/\/Subtype \/Image/g)?.length,
    ).toBeGreaterThanOrEqual(2);
    expect(tags.filter(({ role, alt }) => role === 'Figure' && alt === '1. turbine wheel. view j')).toHaveLength(1);
  });

  test('[W1] a place to sign stands at the end: name, date, signature, on the last page and once', async () => {
    const { text } = await readPdf(await pdfOf(reportOn(groundOf(demo, sheetOf('s07')))));
    const paper = text.join('\n');
    for (const label of ['Name', 'Date', 'Signature']) expect(text.at(-1)).toMatch(new RegExp(`(^|\\s)${label}(\\s|$)`));
    expect(paper.match(/Signature/g)).toHaveLength(1);
  });

  test('[W1] a long sheet runs on over as many pages as it takes, and nothing of it is left out', async () => {
    const sheet = sheetOf('s07');
    const long: Sheet = {
      ...sheet,
      story: Array.from({ length: 60 }, (_, i) => `Line ${i + 1} of what the pilot had to say about it, at some length.`).join('\n'),
      observations: Array.from({ length: 40 }, (_, round) =>
        sheet.observations.map((one) => ({ ...one, id: asId<ObservationId>(`${one.id}-${round}`) })),
      ).flat(),
    };
    const report = reportOn(groundOf(demo, long));
    const { pages, text } = await readPdf(await pdfOf(report));
    expect(pages).toBeGreaterThan(4);
    // The feet stand between what runs on from one page to the next.
    const body = text.map((page, i) =>
      bare(page)
        .replace(bare(`Page ${i + 1} of ${pages}`), '')
        .replace(bare(report.foot.text), ''),
    );
    const paper = body.join('');
    for (const line of linesOf(report)) if (line !== report.foot) expect(paper, line.text).toContain(bare(line.text));
    expect(paper.match(/exducerdiameter54mm/g)?.length).toBe(40);
  });

  test('[W1] names in other scripts are set from the same font; letters it lacks are written as their code points', async () => {
    const customer = 'Ægir Þórðarson, Łódź; Νίκος Θαλάσσης; Пётр Лодкин; Đặng Thuyền; 海';
    const report = reportOn(groundOf(demo, sheetOf('s10'), { customer }));
    const { text } = await readPdf(await pdfOf(report));
    expect(bare(text.join('\n'))).toContain(bare(`Customer: ${customer.replace('海', '[U+6D77]')}`));
  });

  test('the same document made at the same time is the same file, byte for byte', async () => {
    const report = reportOn(groundOf(demo, sheetOf('s17')));
    expect(Buffer.from(await pdfOf(report)).equals(Buffer.from(await pdfOf(report)))).toBe(true);
  });

  test('a text is torn into runs only where the script changes, and control characters become spaces', () => {
    expect(runsOf('Basalt-QD′, ± 0.05 mm')).toEqual([{ script: 'latin', text: 'Basalt-QD′, ± 0.05 mm' }]);
    expect(runsOf('a\tb\u0007c\u200d')).toEqual([{ script: 'latin', text: 'a b c ' }]);
    expect(runsOf('Łódź').map(({ script }) => script)).toEqual(['latin-ext', 'latin', 'latin-ext']);
    expect(runsOf('')).toEqual([{ script: 'latin', text: '' }]);
  });
});
