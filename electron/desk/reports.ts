import type { Outcome, Store } from '../../db/index.ts';
import type { Report, Sheet } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { well } from '../bridge/reply.ts';
import { logoIn, photoIn } from '../print/case-of.ts';
import { makeReport } from '../print/make-report.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** The report for the customer, as a document and as the PDF of that document. */
export const reportCalls = (store: Store, kept: KeptAtlas, now: () => Date = () => new Date()): Calls<'report'> => {
  const reportOn = async (sheet: Sheet, story: boolean): Promise<Outcome<Report>> => {
    const held = await kept.holding(sheet);
    return held.ok ? makeReport(store, held.value.atlas, held.value.sheet, { now: now(), story }) : held;
  };
  return {
    'report.of': ({ sheet, story }) => reportOn(sheet, story),
    'report.pdf': async ({ sheet, story }) => {
      const made = await reportOn(sheet, story);
      if (!made.ok) return made;
      // The PDF library is read only when a PDF is asked for.
      const { reportPdf } = await import('../print/report-pdf.ts');
      const bytes = await reportPdf(made.value, { made: now(), photo: photoIn(store), logo: await logoIn(store) });
      return well({ data: Buffer.from(bytes).toString('base64') });
    },
  };
};
