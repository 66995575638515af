import { z } from 'zod';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { Report } from '../../reasoner/index.ts';
import { longCall } from './call.ts';

/** `story`: whether the shop's private note is printed too. */
const asked = z.strictObject({ sheet: sheetSchema, story: z.boolean().default(false) });

/** The report for the customer on a found unit as it stands in the window; the case's number, customer and photographs are looked up by its id. */
export const reportCalls = {
  'report.of': longCall(asked).returns<Report>(),
  /** The same document as a PDF file, base64. */
  'report.pdf': longCall(asked).returns<{ readonly data: string }>(),
} as const;
