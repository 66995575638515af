import type { SheetId } from '../../reasoner/index.ts';
import type { Door } from '../store/door.ts';
import type { Outcome } from '../trouble.ts';
import type { CasePhoto, PhotoAbout, PhotoId } from './case.ts';
import { addPhoto, describePhoto, type PhotoBytes, type PhotoToAdd, photoBytes, photosOf, readPhoto, removePhoto } from './case-photos.ts';

/** Photographs of cases. What changes them gives the case's photographs. */
export interface PhotoShelf {
  /** Cleans, then stores; `photo-unreadable`, `photo-damaged`, `photo-too-large`, `photos-too-many`. */
  add(sheet: SheetId, photo: PhotoToAdd): Promise<Outcome<readonly CasePhoto[]>>;
  describe(sheet: SheetId, photo: PhotoId, caption: string, about: PhotoAbout | null): Promise<Outcome<readonly CasePhoto[]>>;
  remove(sheet: SheetId, photo: PhotoId): Promise<Outcome<readonly CasePhoto[]>>;
  bytes(photo: PhotoId, which: 'whole' | 'thumbnail'): Promise<Outcome<PhotoBytes>>;
}

export const photoShelf = ({ read, transact, now }: Door): PhotoShelf => ({
  add: async (sheet, photo) => {
    const pictures = readPhoto(photo);
    if (!pictures.ok) return pictures;
    return transact(async (connection) => {
      await addPhoto(connection, sheet, pictures.value, photo, now().toISOString());
      return await photosOf(connection, sheet);
    });
  },
  describe: (sheet, photo, caption, about) =>
    transact(async (connection) => {
      await describePhoto(connection, sheet, photo, { caption, about });
      return await photosOf(connection, sheet);
    }),
  remove: (sheet, photo) =>
    transact(async (connection) => {
      await removePhoto(connection, sheet, photo);
      return await photosOf(connection, sheet);
    }),
  bytes: (photo, which) => read((reader) => photoBytes(reader, photo, which)),
});
