import type { Sheet } from '../../reasoner/index.ts';
import type { SlipOf } from '../read/asked.ts';
import { faultsOfSheet } from '../sheets/check-sheet.ts';
import { sheetSchema } from '../sheets/schema.ts';
import { placeIn } from './lookups.ts';
import { mappedSheet } from './mapping/map-entries.ts';
import { readJson, sheetFiles } from './read-files.ts';
import type { ReadParts } from './read-parts.ts';
import type { Reading } from './reading.ts';

export const readSheets = async ({ from, find, faults, ids }: Reading, parts: ReadParts, slipOf: SlipOf | undefined): Promise<Sheet[]> => {
  const sheets: Sheet[] = [];
  // Where the atlas itself could not be read whole, a sheet cannot be held against it.
  const whole = faults.count === 0;
  for (const file of await sheetFiles(from, faults)) {
    const read = await readJson(from, file, sheetSchema, faults);
    if (read === null) continue;
    if (`sheets/${read.value.id}.json` !== file)
      faults.add(placeIn(file, ['id'], read.places), JSON.stringify(read.value.id), 'the name of its file without .json');
    const known = {
      slot: (id: string) => find.slot.get(id),
      feature: (id: string) => find.feature.get(id),
      part: (id: string) => parts.get(id),
      maker: (id: string) => find.maker.get(id),
      ...(slipOf === undefined ? {} : { slipOf }),
    };
    const { sheet, both } = ids === null ? { sheet: read.value, both: [] } : mappedSheet(read.value, ids);
    for (const slot of both)
      faults.add(placeIn(file, ['chosen', slot], read.places), `another part in "${slot}"`, 'one part in slots that are mapped onto one');
    if (whole) {
      for (const fault of faultsOfSheet(sheet, known))
        faults.add(placeIn(file, fault.path, read.places), JSON.stringify(fault.found), fault.expected);
    }
    sheets.push(sheet);
  }
  return sheets;
};
