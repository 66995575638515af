import {
  asId,
  buildSheetOf,
  buildSheetText,
  type CompiledAtlas,
  type FitVerdict,
  type PartId,
  type PlanAnswer,
  planBuild,
  type Sheet,
} from '../../reasoner/index.ts';
import { trouble } from '../bridge/reply.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { AtlasChoice } from './open-atlas.ts';
import { sayTrouble, type Terminal } from './terminal.ts';
import { verdictText } from './verdict-text.ts';
import { type SheetChoice, withSheet } from './with-atlas.ts';

export interface BuildCommand extends AtlasChoice {
  readonly sheet: SheetChoice;
  readonly format: 'text' | 'json';
  /** Parts that need not be bought, by id. */
  readonly stock: readonly string[];
}

/** `kinplate build plan`: the sheet for the bench, or the reasoner's whole answer. The exit code says whether it goes together. */
export const buildPlanCommand = (command: BuildCommand, terminal: Terminal): Promise<ExitCode> =>
  withSheet(command, terminal, (atlas, sheet) => {
    const missing = command.stock.find((part) => !atlas.parts.has(asId<PartId>(part)));
    if (missing !== undefined) return sayTrouble(terminal, trouble('not-found', '--stock', `The atlas has no part “${missing}”.`).trouble);
    const plan = planBuild(atlas, sheet, { stock: command.stock.map((part) => asId<PartId>(part)) });
    terminal.out(command.format === 'json' ? `${JSON.stringify(plan, null, 2)}\n` : planText(plan, sheet, atlas));
    return plan.kind === 'contradiction' ? exitCodes.contradiction : exitOfFit(plan.verdict);
  });

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
