import { type Gathering, origin, text } from './gathering.ts';
import type { KeptPhoto, Source } from './source.ts';

/** Photographs that cases show, from wherever their bytes are whole. */
export const gatherPhotos = ({ sources, damaged, from, lost, rows }: Gathering): ReadonlyMap<string, KeptPhoto> => {
  const photos = new Map<string, KeptPhoto>();
  const gone = new Set<string>();
  for (const row of rows.get('case_photos') ?? []) {
    const id = text(row.photo);
    if (photos.has(id) || gone.has(id)) continue;
    const mine = damaged.photos.get(id);
    const copy = mine?.small === true ? undefined : newestWith(sources.backups(), id, mine === undefined);
    const found = copy?.photos.get(id) ?? mine ?? sources.photoFile(id);
    if (found === null) {
      gone.add(id);
      lost.push({
        what: 'photograph',
        id,
        known: [text(row.caption), `in the case of sheet ${text(row.sheet)}`].filter((word) => word !== '').join(', '),
      });
      continue;
    }
    photos.set(id, found);
    if (copy !== undefined) from.push({ what: 'photograph', of: id, source: origin(copy), saved: null });
    else if (found.from !== undefined) from.push({ what: 'photograph', of: id, source: found.from, saved: null });
    if (!found.small) lost.push({ what: 'small picture', id, known: text(row.caption) });
  }
  return photos;
};

/**
 * The newest backup that has a photograph with its small picture; or, where that will do, without. Backups are gone through one by one, because all the
 * photographs of each have to be read.
 */
const newestWith = (backups: readonly Source[], id: string, withoutSmall: boolean): Source | undefined => {
  let without: Source | undefined;
  for (const backup of backups) {
    const photo = backup.photos.get(id);
    if (photo?.small === true) return backup;
    if (photo !== undefined && withoutSmall) without ??= backup;
  }
  return without;
};
