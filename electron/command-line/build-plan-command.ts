import {
  asId,
  buildSheetOf,
  buildSheetText,
  type CompiledAtlas,
  type PartId,
  type PlanAnswer,
  planBuild,
  type Sheet,
} from '../../reasoner/index.ts';
import { refusal } from '../bridge/reply.ts';
import { shopRates } from '../desk/shop-rates.ts';
import { command } from './command.ts';
import { exitCodes, exitOfFit } from './exit-codes.ts';
import { atlasOptions, formatOption, sheetOptions } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { verdictText } from './verdict-text.ts';
import { withSheet } from './with-atlas.ts';

/** `kinplate build plan`: the sheet for the bench, or the reasoner's whole answer. The exit code says whether it goes together. */
export const buildPlanCommand = command({
  name: 'build plan',
  // Stock: parts that need not be bought, by id.
  options: { ...sheetOptions, stock: { kind: 'list', value: '<part>' }, ...formatOption, ...atlasOptions },
  inPlaceOfWords: 'name the sheet with --sheet',
  help: ['a build on paper: the sheet for the bench'],
  run: ({ options }, terminal) =>
    withSheet(options, terminal, async (atlas, sheet, store) => {
      const missing = options.stock.find((part) => !atlas.parts.has(asId<PartId>(part)));
      if (missing !== undefined)
        return sayTrouble(terminal, refusal('not-found', '--stock', `The atlas has no part “${missing}”.`).trouble);
      const rates = await shopRates(store, atlas);
      if (!rates.ok) return sayTrouble(terminal, rates.trouble);
      const plan = planBuild(atlas, sheet, {
        stock: options.stock.map((part) => asId<PartId>(part)),
        ...(rates.value === undefined ? {} : { rates: rates.value }),
      });
      terminal.out(options.format === 'json' ? jsonText(plan) : planText(plan, sheet, atlas));
      return plan.kind === 'contradiction' ? exitCodes.contradiction : exitOfFit(plan.verdict);
    }),
});

const planText = (plan: PlanAnswer, sheet: Sheet, atlas: CompiledAtlas): string =>
  plan.kind === 'contradiction' ? verdictText(plan, sheet, atlas.data) : buildSheetText(buildSheetOf(atlas, sheet, plan));
