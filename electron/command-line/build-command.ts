import {
  asId,
  buildSheetOf,
  buildSheetText,
  type CompiledAtlas,
  compileAtlas,
  type FitVerdict,
  type PartId,
  type PlanAnswer,
  planBuild,
  type Sheet,
} from '../../reasoner/index.ts';
import { trouble } from '../bridge/reply.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type AtlasChoice, openChosen } from './open-atlas.ts';
import { sayTrouble, type Terminal } from './terminal.ts';
import { type SheetChoice, sheetOf } from './verdict-command.ts';
import { verdictText } from './verdict-text.ts';

export interface BuildCommand extends AtlasChoice {
  readonly sheet: SheetChoice;
  readonly format: 'text' | 'json';
  /** Parts that need not be bought, by id. */
  readonly stock: readonly string[];
}

/** `kinplate build plan`: the sheet for the bench, or the reasoner's whole answer. The exit code says whether it goes together. */
export const buildPlanCommand = async (command: BuildCommand, terminal: Terminal): Promise<ExitCode> => {
  const opened = await openChosen(command, 'read');
  if (!opened.ok) return sayTrouble(terminal, opened.trouble);
  const store = opened.value;
  try {
    const sheet = await sheetOf(command.sheet, store, terminal);
    if (!sheet.ok) return sayTrouble(terminal, sheet.trouble);
    const atlas = compileAtlas(await store.readAtlas());
    const missing = command.stock.find((part) => !atlas.parts.has(asId<PartId>(part)));
    if (missing !== undefined) return sayTrouble(terminal, trouble('not-found', '--stock', `The atlas has no part “${missing}”.`).trouble);
    const plan = planBuild(atlas, sheet.value, { stock: command.stock.map((part) => asId<PartId>(part)) });
    terminal.out(command.format === 'json' ? `${JSON.stringify(plan, null, 2)}\n` : planText(plan, sheet.value, atlas));
    return plan.kind === 'contradiction' ? exitCodes.contradiction : exitOfFit(plan.verdict);
  } finally {
    await store.close();
  }
};

const planText = (plan: PlanAnswer, sheet: Sheet, atlas: CompiledAtlas): string =>
  plan.kind === 'contradiction' ? verdictText(plan, sheet, atlas.atlas) : buildSheetText(buildSheetOf(atlas, sheet, plan));

export const exitOfFit = (verdict: FitVerdict): ExitCode => {
  switch (verdict) {
    case 'drops in':
      return exitCodes.stands;
    case 'after work':
      return exitCodes.afterWork;
    case 'will not fit':
      return exitCodes.ruledOut;
    case 'not known':
      return exitCodes.open;
  }
};
