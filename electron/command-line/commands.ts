import { anewCommand } from './anew-command.ts';
import { backupCommand, backupsCommand } from './backup-commands.ts';
import { beginCommand } from './begin-command.ts';
import { buildFillCommand } from './build-fill-command.ts';
import { buildPlanCommand } from './build-plan-command.ts';
import { caseCommand, casesCommand } from './case-commands.ts';
import { caseTakeInCommand, caseWriteCommand } from './case-file-commands.ts';
import {
  atlasWriteCommand,
  changeLookCommand,
  changeMakeCommand,
  changeShowCommand,
  changesCommand,
  changeUndoCommand,
} from './change-commands.ts';
import type { Command } from './command.ts';
import { compareCommand } from './compare-command.ts';
import { fitCommand } from './fit-command.ts';
import { keyCommand } from './key-command.ts';
import { listingsCommand } from './listings-command.ts';
import { packMapCommand } from './map-command.ts';
import { mendCommand } from './mend-command.ts';
import { numberCommand } from './number-command.ts';
import { oddsCommand } from './odds-command.ts';
import { packCheckCommand, packExportCommand, packLoadCommand, packRemoveCommand, packsCommand } from './pack-commands.ts';
import { paperAddCommand, papersCommand, paperWriteCommand } from './paper-commands.ts';
import { pricesCommand, pricesReadCommand } from './price-commands.ts';
import { questionsCommand } from './questions-command.ts';
import { reportCommand } from './report-command.ts';
import { restoreCommand } from './restore-command.ts';
import { retoldCommand } from './retold-command.ts';
import { samplesCommand } from './samples-command.ts';
import { schemaCommand } from './schema-command.ts';
import { sheetCommand, sheetsCommand } from './sheet-commands.ts';
import { shopCommand, shopSetCommand } from './shop-commands.ts';
import { packSignCommand, packVerifyCommand } from './sign-commands.ts';
import { signerMakeCommand, signerShowCommand, trustAddCommand, trustCommand, trustWithdrawCommand } from './signer-commands.ts';
import { stockAddCommand, stockCommand, stockReadCommand, stockTakeCommand } from './stock-commands.ts';
import { tableBringCommand, tableLookCommand, tableWriteCommand } from './table-commands.ts';
import { verdictCommand } from './verdict-command.ts';

/** Every command, in the order the help tells them. */
export const commands: readonly Command[] = [
  verdictCommand,
  oddsCommand,
  reportCommand,
  listingsCommand,
  fitCommand,
  numberCommand,
  buildPlanCommand,
  buildFillCommand,
  compareCommand,
  keyCommand,
  questionsCommand,
  sheetsCommand,
  sheetCommand,
  casesCommand,
  retoldCommand,
  caseCommand,
  caseWriteCommand,
  caseTakeInCommand,
  samplesCommand,
  stockCommand,
  stockAddCommand,
  stockTakeCommand,
  stockReadCommand,
  pricesCommand,
  pricesReadCommand,
  papersCommand,
  paperAddCommand,
  paperWriteCommand,
  shopCommand,
  shopSetCommand,
  beginCommand,
  packCheckCommand,
  packLoadCommand,
  packMapCommand,
  packExportCommand,
  packRemoveCommand,
  packSignCommand,
  packVerifyCommand,
  packsCommand,
  changeLookCommand,
  changeMakeCommand,
  changesCommand,
  changeShowCommand,
  changeUndoCommand,
  atlasWriteCommand,
  signerMakeCommand,
  signerShowCommand,
  trustCommand,
  trustAddCommand,
  trustWithdrawCommand,
  tableLookCommand,
  tableBringCommand,
  tableWriteCommand,
  backupCommand,
  backupsCommand,
  restoreCommand,
  anewCommand,
  mendCommand,
  schemaCommand,
];
