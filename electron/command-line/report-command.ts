import { linesOf, type Report, type ReportBlock } from '../../reasoner/index.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { logoIn, photoIn } from '../print/case-of.ts';
import { makeReport } from '../print/make-report.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption, sheetOptions } from './option.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withSheet } from './with-atlas.ts';
import { writeWhole } from './write-whole.ts';

/** `kinplate report`. Exits 0 once the report is made, whatever it says: `verdict` is the command that answers by its exit code. */
export const reportCommand = command({
  name: 'report',
  // Without --pdf the document is printed as text or JSON.
  options: { ...sheetOptions, pdf: { kind: 'text', value: '<out.pdf>' }, story: { kind: 'flag' }, ...formatOption, ...atlasOptions },
  inPlaceOfWords: 'name the sheet with --sheet, and the file to write with --pdf',
  help: ['the report for the customer, as a PDF or in words; the story is left out but for --story'],
  run: ({ options }, terminal, { now }) => {
    const { pdf, format } = options;
    if (pdf === '') return sayUsage(terminal, '--pdf names the file to write.');
    return withSheet(options, terminal, async (atlas, sheet, store) => {
      const made = await makeReport(store, atlas, sheet, { now: now(), story: options.story });
      if (!made.ok) return sayTrouble(terminal, made.trouble);
      if (pdf === undefined) {
        terminal.out(format === 'json' ? jsonText(made.value) : reportText(made.value));
        return exitCodes.stands;
      }
      // The PDF library is read only when a PDF is asked for: every other command starts without it.
      const { reportPdf } = await import('../print/report-pdf.ts');
      const written = await writeWhole(pdf, await reportPdf(made.value, { made: now(), photo: photoIn(store), logo: await logoIn(store) }));
      if (!written.ok) return sayTrouble(terminal, written.trouble);
      terminal.err(`· ${pdf}: ${counted(linesOf(made.value).length, 'line')} on paper`);
      return exitCodes.stands;
    });
  },
});

/** The document as plain text; the picture of the reasons is left to paper, its caption with it. */
export const reportText = ({ letterhead, title, subtitle, head, brief, sections, foot }: Report): string =>
  `${[
    ...(letterhead === undefined || letterhead.name === '' ? [] : [letterhead.name, ...letterhead.lines, '']),
    `${title}: ${subtitle.text}`,
    ...head.map(({ label, line }) => `${label}: ${line.text}`),
    '',
    ...brief.map(({ text }) => text),
    ...sections.flatMap(({ heading, blocks }) => ['', heading, ...blocks.flatMap(blockText)]),
    '',
    foot.text,
  ].join('\n')}\n`;

const blockText = (block: ReportBlock): string[] => {
  switch (block.kind) {
    case 'paragraph':
      return [`  ${block.line.text}`];
    case 'list':
      return block.lines.map(({ text }, i) => `  ${block.numbered ? `${i + 1}.` : '-'} ${text}`);
    case 'ticket':
      return [`  ${block.title}:`, ...block.lines.map(({ text }) => `    - ${text}`)];
    case 'entries':
      return block.rows.map(({ head, lines }) => `  ${head}: ${lines.map(({ text }) => text).join('; ')}`);
    case 'graph':
      return [];
    case 'photographs':
      return block.photographs.map(({ caption }) => `  ${caption.text}`);
  }
};
