import type { SheetId } from '../../reasoner/index.ts';
import type { Guard, Reader } from '../driver/driver.ts';
import { type Version, versionOf } from '../driver/version.ts';
import { trouble } from '../trouble.ts';
import { type HeldSheet, ownStands } from './kept-sheets.ts';

/**
 * What goes with an own sheet when it is removed, beside the sheet and what its history keeps of it: of each table one text, or null. Rows that a new table keeps of a case
 * belong here, or somebody removes what he has not seen.
 */
const beside: readonly string[] = [
  'select json_array(customer, looked_by, notes) from case_details where sheet = ? order by n desc limit 1',
  `select json_group_array(json_array(photo, caption, about_slot, about_observation)) from
     (select * from case_photos where sheet = ? order by photo)`,
  'select json_array(n, decided_by, person, day, decision, ground) from case_words where sheet = ? order by n desc limit 1',
  'select json_array(n, reason) from cases_left where sheet = ? order by n desc limit 1',
];

/** An own sheet with its case: its version, and the guards that all of it still stands. */
export interface WholeCase {
  readonly version: Version;
  readonly stands: readonly Guard[];
}

export const wholeCase = async (reader: Reader, id: SheetId, { own, sheet }: HeldSheet): Promise<WholeCase> => {
  const texts: (string | null)[] = [];
  for (const sql of beside) {
    const [row] = await reader.all<{ text: string | null }>(`select (${sql}) as text`, [id]);
    texts.push(row?.text ?? null);
  }
  const refusal = trouble(
    'changed-since',
    `sheet ${id}`,
    `The case of the sheet "${id}" was being written elsewhere at the same time. Nothing was changed. Try again.`,
  );
  return {
    version: versionOf([sheet, ...texts]),
    stands: [ownStands(id, own), ...beside.map((sql, i): Guard => ({ sql: `select (${sql}) is ?`, params: [id, texts[i]], refusal }))],
  };
};
