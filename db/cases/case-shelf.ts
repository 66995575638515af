import type { SheetId } from '../../reasoner/index.ts';
import type { Door } from '../store/door.ts';
import type { Outcome } from '../trouble.ts';
import type { CaseDetails, CaseFile, CaseFilter, CaseSummary } from './case.ts';
import { describeCase, openCaseFile } from './kept-cases.ts';
import { listCases } from './list-cases.ts';
import { putBackCases, type RecoveredCases } from './recover-cases.ts';

/** Case files: one for every sheet the shop has saved. */
export interface CaseShelf {
  /** Saved last first. */
  list(filter: CaseFilter): Promise<Outcome<readonly CaseSummary[]>>;
  /** As it stands, or as it stood at an instant (ISO). */
  open(sheet: SheetId, asOf: string | null): Promise<Outcome<CaseFile>>;
  describe(sheet: SheetId, details: CaseDetails): Promise<Outcome<CaseFile>>;
  /** Puts back what `recoverCases` read out of a damaged file, before the sheets themselves are saved; a case that is there stays as it is. */
  putBack(recovered: Pick<RecoveredCases, 'cases' | 'numbers'>): Promise<Outcome<null>>;
}

export const caseShelf = ({ read, transact, now }: Door): CaseShelf => ({
  list: (filter) => read((reader) => listCases(reader, filter)),
  open: (sheet, asOf) => read((reader) => openCaseFile(reader, sheet, asOf)),
  describe: (sheet, details) =>
    transact(async (connection) => {
      await describeCase(connection, sheet, details, now().toISOString());
      return await openCaseFile(connection, sheet, null);
    }),
  putBack: (recovered) =>
    transact(async (connection) => {
      await putBackCases(connection, recovered);
      return null;
    }),
});
