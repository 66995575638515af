import { createHash } from 'node:crypto';
import { and, count, eq, sql } from 'drizzle-orm';
import type { ObservationId, SheetId, SlotId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Batch, Guard, Reader, Statement } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { build, statementOf } from '../driver/statements.ts';
import { type Version, versionOf } from '../driver/version.ts';
import { cleanPhoto } from '../photos/clean-photo.ts';
import type { Cleaned } from '../photos/cleaned.ts';
import * as t from '../schema.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import type { CasePhoto, PhotoAbout, PhotoId, PhotoType } from './case.ts';
import { checkCase, noSuchCase } from './check-case.ts';
import { heldSheet, openSheet, ownStands } from './kept-sheets.ts';

/** A photograph on its way in. The thumbnail is made by who adds it: drawing pictures is the window's work. */
export interface PhotoToAdd {
  /** What troubles call it. */
  readonly name: string;
  readonly bytes: Buffer;
  readonly thumbnail: Buffer;
  readonly caption: string;
  readonly about: PhotoAbout | null;
}

/** Stored bytes as they are handed out. */
export interface PhotoBytes {
  readonly type: PhotoType;
  readonly bytes: Buffer;
}

const { thumbnailBytes, thumbnailSide, casePhotos } = limits;

/** Both pictures of a photograph, cleaned. Reading them takes no database, so it is done before. */
export interface ReadPhoto {
  readonly photo: Cleaned;
  readonly thumbnail: Cleaned;
}

/** Troubles as of `cleanPhoto`, and `photo-too-large` for a thumbnail that is none. */
export const readPhoto = ({ name, bytes, thumbnail }: Pick<PhotoToAdd, 'name' | 'bytes' | 'thumbnail'>): Outcome<ReadPhoto> => {
  const photo = cleanPhoto(bytes, name);
  if (!photo.ok) return photo;
  const small = cleanPhoto(thumbnail, `the thumbnail of ${name}`);
  if (!small.ok) return small;
  const { width, height, bytes: kept } = small.value;
  if (kept.length > thumbnailBytes || Math.max(width, height) > thumbnailSide)
    return failed(
      trouble(
        'photo-too-large',
        name,
        `The thumbnail of ${name} is ${width} × ${height} pixels in ${kept.length} bytes; the most is ${thumbnailSide} a side and ${thumbnailBytes} bytes.`,
      ),
    );
  return done({ photo: photo.value, thumbnail: small.value });
};

/**
 * Puts a photograph into a case. The same picture is stored once, whichever cases it is in; added again to the same case, what was said of it stays, and
 * only what was empty is filled: who adds it has not read it (H5). Throws `not-found`, `photos-too-many`.
 */
export const photoAdded = async (
  reader: Reader,
  sheet: SheetId,
  { photo, thumbnail }: ReadPhoto,
  { caption, about }: Pick<PhotoToAdd, 'caption' | 'about'>,
  at: string,
): Promise<Batch> => {
  await checkCase(reader, sheet);
  const shows = await aboutStands(reader, sheet, about);
  const id = photoIdOf(photo.bytes);
  const [held] = await reader.orm.select({ many: count() }).from(t.casePhotos).where(eq(t.casePhotos.sheet, sheet));
  const full = trouble(
    'photos-too-many',
    `sheet ${sheet}`,
    `The case holds ${casePhotos} photographs already, which is the most. Remove one first.`,
  );
  if ((held?.many ?? 0) >= casePhotos) throw new TroubleError(full);
  return {
    guards: [
      { sql: 'select count(*) from cases where sheet = ?', params: [sheet], refusal: noSuchCase(sheet) },
      { sql: 'select count(*) < ? from case_photos where sheet = ?', params: [casePhotos, sheet], refusal: full },
      ...shows,
    ],
    statements: [
      photoKept(id, { photo, thumbnail }),
      statementOf(
        build
          .insert(t.casePhotos)
          .values({ sheet, photo: id, addedAt: at, caption, ...columnsOfAbout(about) })
          .onConflictDoUpdate({ target: [t.casePhotos.sheet, t.casePhotos.photo], set: whereEmpty }),
      ),
    ],
  };
};

/** Stores a picture, once whichever cases it is in. */
export const photoKept = (id: PhotoId, { photo, thumbnail }: ReadPhoto): Statement => {
  const kept = {
    type: photo.type,
    width: photo.width,
    height: photo.height,
    size: photo.bytes.length,
    bytes: photo.bytes,
    thumbnailType: thumbnail.type,
    thumbnail: thumbnail.bytes,
  };
  return statementOf(
    build
      .insert(t.photos)
      .values({ id, ...kept })
      // Where the bytes were altered on the disk, the same picture added again makes them whole.
      .onConflictDoUpdate({ target: t.photos.id, set: kept, setWhere: sql`${t.photos.bytes} <> ${photo.bytes}` }),
  );
};

const ofCase = (sheet: SheetId, photo: PhotoId) => and(eq(t.casePhotos.sheet, sheet), eq(t.casePhotos.photo, photo));

/** Words of a photograph added again, where there are none yet. */
const whereEmpty = {
  caption: sql`coalesce(nullif(${t.casePhotos.caption}, ''), excluded.caption)`,
  aboutSlot: sql`iif(coalesce(${t.casePhotos.aboutSlot}, ${t.casePhotos.aboutObservation}) is null, excluded.about_slot, ${t.casePhotos.aboutSlot})`,
  aboutObservation: sql`iif(coalesce(${t.casePhotos.aboutSlot}, ${t.casePhotos.aboutObservation}) is null, excluded.about_observation, ${t.casePhotos.aboutObservation})`,
};

/** What is said of a photograph. */
interface PhotoWords {
  readonly caption: string;
  readonly about: PhotoAbout | null;
}

const photoVersion = ({ caption, about }: PhotoWords): Version => versionOf({ caption, about });

/** What is said of the photograph now, and that it still is. Throws `not-found`. */
const wordsHeld = async (
  reader: Reader,
  sheet: SheetId,
  photo: PhotoId,
): Promise<{ readonly words: PhotoWords; readonly stand: Guard }> => {
  const [row] = await reader.orm
    .select({ caption: t.casePhotos.caption, slot: t.casePhotos.aboutSlot, observation: t.casePhotos.aboutObservation })
    .from(t.casePhotos)
    .where(ofCase(sheet, photo));
  if (row === undefined) throw new TroubleError(noSuchPhoto(photo));
  return {
    words: { caption: row.caption, about: aboutIn(row) },
    stand: {
      sql: 'select count(*) from case_photos where sheet = ? and photo = ? and caption = ? and about_slot is ? and about_observation is ?',
      params: [sheet, photo, row.caption, row.slot, row.observation],
      refusal: trouble(
        'changed-since',
        `photograph ${photo}`,
        'What is said of the photograph was being written elsewhere at the same time. Nothing was changed. Try again.',
      ),
    },
  };
};

/** That the case shows the photograph. */
const photoStands = (sheet: SheetId, photo: PhotoId): Guard => ({
  sql: 'select count(*) from case_photos where sheet = ? and photo = ?',
  params: [sheet, photo],
  refusal: noSuchPhoto(photo),
});

/** Writes caption and what is shown anew. Throws `not-found`, and `changed-since` where other words stand there than those it was made against. */
export const photoDescribed = async (
  reader: Reader,
  sheet: SheetId,
  photo: PhotoId,
  words: PhotoWords,
  madeAgainst: MadeAgainst,
): Promise<Batch> => {
  const shows = await aboutStands(reader, sheet, words.about);
  const held = await wordsHeld(reader, sheet, photo);
  checkMadeAgainst(madeAgainst, held.words, `photograph ${photo}`, 'What is said of the photograph', words);
  return {
    guards: [...shows, photoStands(sheet, photo), ...(madeAgainst === undefined ? [] : [held.stand])],
    statements: [
      statementOf(
        build
          .update(t.casePhotos)
          .set({ caption: words.caption, ...columnsOfAbout(words.about) })
          .where(ofCase(sheet, photo)),
      ),
    ],
  };
};

/**
 * Takes a photograph out of a case; its bytes go with the last case it is in. Throws `not-found`, and `changed-since` where other words stand there than those it
 * was decided of.
 */
export const photoRemoved = async (reader: Reader, sheet: SheetId, photo: PhotoId, madeAgainst: MadeAgainst): Promise<Batch> => {
  const held = await wordsHeld(reader, sheet, photo);
  checkMadeAgainst(madeAgainst, held.words, `photograph ${photo}`, 'What is said of the photograph');
  return {
    guards: [photoStands(sheet, photo), ...(madeAgainst === undefined ? [] : [held.stand])],
    statements: [statementOf(build.delete(t.casePhotos).where(ofCase(sheet, photo)))],
  };
};

/** Photographs of a case, in the turn they were added, without their bytes. */
export const photosOf = async (reader: Reader, sheet: SheetId): Promise<CasePhoto[]> => {
  const rows = await reader.orm
    .select({
      id: t.photos.id,
      type: t.photos.type,
      bytes: t.photos.size,
      width: t.photos.width,
      height: t.photos.height,
      caption: t.casePhotos.caption,
      slot: t.casePhotos.aboutSlot,
      observation: t.casePhotos.aboutObservation,
      addedAt: t.casePhotos.addedAt,
    })
    .from(t.casePhotos)
    .innerJoin(t.photos, eq(t.photos.id, t.casePhotos.photo))
    .where(eq(t.casePhotos.sheet, sheet))
    .orderBy(t.casePhotos.n, t.casePhotos.photo);
  return rows.map(({ slot, observation, ...row }) => {
    const about = aboutIn({ slot, observation });
    return { ...row, about, version: photoVersion({ caption: row.caption, about }) };
  });
};

const aboutIn = ({ slot, observation }: { readonly slot: SlotId | null; readonly observation: ObservationId | null }): PhotoAbout | null =>
  slot !== null ? { kind: 'slot', slot } : observation !== null ? { kind: 'observation', observation } : null;

/**
 * The stored picture, or its small one. Throws `not-found`, and `photo-altered` where the picture is not the one that was saved: its id is the hash of
 * that. Of the small one no hash is kept.
 */
export const photoBytes = async (reader: Reader, photo: PhotoId, which: 'whole' | 'thumbnail'): Promise<PhotoBytes> => {
  const [type, bytes] = which === 'whole' ? [t.photos.type, t.photos.bytes] : [t.photos.thumbnailType, t.photos.thumbnail];
  const [found] = await reader.orm.select({ type, bytes }).from(t.photos).where(eq(t.photos.id, photo));
  if (found === undefined) throw new TroubleError(noSuchPhoto(photo));
  if (which === 'whole' && photoIdOf(found.bytes) !== photo) throw new TroubleError(alteredPhoto(photo));
  return found;
};

export const columnsOfAbout = (about: PhotoAbout | null) => ({
  aboutSlot: about?.kind === 'slot' ? about.slot : null,
  aboutObservation: about?.kind === 'observation' ? about.observation : null,
});

/** What is shown must be there: a slot of the atlas, or an entry of the sheet as it is saved. Throws `not-found`; the guards hold it to that. */
const aboutStands = async (reader: Reader, sheet: SheetId, about: PhotoAbout | null): Promise<Guard[]> => {
  if (about === null) return [];
  if (about.kind === 'slot') {
    const refusal = trouble('not-found', 'about', `The atlas has no slot "${about.slot}".`);
    const [slot] = await reader.orm.select({ id: t.slots.id }).from(t.slots).where(eq(t.slots.id, about.slot));
    if (slot === undefined) throw new TroubleError(refusal);
    return [{ sql: 'select count(*) from slots where id = ?', params: [about.slot], refusal }];
  }
  const { observations } = await openSheet(reader, sheet);
  if (!observations.some(({ id }) => id === about.observation))
    throw new TroubleError(
      trouble('not-found', 'about', `The saved sheet has no entry "${about.observation}". Save the sheet, then tie the photograph to it.`),
    );
  return [ownStands(sheet, (await heldSheet(reader, sheet)).own)];
};

/** The id of a photograph: SHA-256 of its bytes, in hex. */
export const photoIdOf = (bytes: Buffer): PhotoId => createHash('sha256').update(bytes).digest('hex') as PhotoId;

const alteredPhoto = (photo: PhotoId) =>
  trouble(
    'photo-altered',
    `photograph ${photo}`,
    `The photograph ${photo} is not shown: what the atlas file holds of it is not what was saved, so the file was damaged on the disk. Add the picture again, or mend the atlas: kinplate mend.`,
  );

const noSuchPhoto = (photo: PhotoId) => trouble('not-found', `photograph ${photo}`, 'There is no such photograph; it was removed.');
