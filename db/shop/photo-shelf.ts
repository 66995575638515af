import type { SheetId } from '../../reasoner/index.ts';
import type { Door } from '../driver/door.ts';
import type { Batch, Reader } from '../driver/driver.ts';
import type { MadeAgainst } from '../driver/made-against.ts';
import type { Outcome } from '../trouble.ts';
import type { CasePhoto, PhotoAbout, PhotoId } from './case.ts';
import {
  type PhotoBytes,
  type PhotoToAdd,
  photoAdded,
  photoBytes,
  photoDescribed,
  photoRemoved,
  photosOf,
  readPhoto,
} from './case-photos.ts';

/** Photographs of cases. What changes them gives the case's photographs. */
export interface PhotoShelf {
  /** Cleans, then stores; `photo-unreadable`, `photo-damaged`, `photo-too-large`, `photos-too-many`. */
  add(sheet: SheetId, photo: PhotoToAdd): Promise<Outcome<readonly CasePhoto[]>>;
  /** `changed-since` when it was made against other words than those that are there. */
  describe(
    sheet: SheetId,
    photo: PhotoId,
    caption: string,
    about: PhotoAbout | null,
    madeAgainst?: MadeAgainst,
  ): Promise<Outcome<readonly CasePhoto[]>>;
  /** `changed-since` when other words stand there than those it was decided of. */
  remove(sheet: SheetId, photo: PhotoId, madeAgainst?: MadeAgainst): Promise<Outcome<readonly CasePhoto[]>>;
  bytes(photo: PhotoId, which: 'whole' | 'thumbnail'): Promise<Outcome<PhotoBytes>>;
}

export const photoShelf = ({ read, write, now }: Door): PhotoShelf => {
  /** Writes, then tells the case's photographs. */
  const changed = async (sheet: SheetId, plan: (reader: Reader) => Promise<Batch>): Promise<Outcome<readonly CasePhoto[]>> => {
    const written = await write(async (reader) => ({ batch: await plan(reader), value: null }));
    return written.ok ? read((reader) => photosOf(reader, sheet)) : written;
  };
  return {
    add: async (sheet, photo) => {
      const pictures = readPhoto(photo);
      const at = now().toISOString();
      return pictures.ok ? changed(sheet, (reader) => photoAdded(reader, sheet, pictures.value, photo, at)) : pictures;
    },
    describe: (sheet, photo, caption, about, madeAgainst) =>
      changed(sheet, (reader) => photoDescribed(reader, sheet, photo, { caption, about }, madeAgainst)),
    remove: (sheet, photo, madeAgainst) => changed(sheet, (reader) => photoRemoved(reader, sheet, photo, madeAgainst)),
    bytes: (photo, which) => read((reader) => photoBytes(reader, photo, which)),
  };
};
