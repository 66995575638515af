import { useEffect, useRef, useState } from 'react';
import type { CasePhoto } from '../../db/answers.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { sayMany } from '../values/sayMany.ts';
import { picturesIn, readPhotoFile } from './photoFile.ts';

/** What is said of a photograph. */
export type PhotoWords = Pick<CasePhoto, 'caption' | 'about'>;

/** What was said of a photograph elsewhere, since it was read here. */
export interface MetPhoto {
  readonly base: CasePhoto;
  readonly mine: PhotoWords;
  readonly theirs: CasePhoto;
}

export interface PhotoEdits {
  readonly adding: boolean;
  /** What was done last, in words. */
  readonly said: string;
  /** Why the last pictures were not taken, or the last change not made. */
  readonly refused: readonly string[];
  add(files: readonly File[]): Promise<void>;
  /** Tells whether it is gone. */
  remove(photo: CasePhoto): Promise<boolean>;
  describeAnew(photo: CasePhoto, change: PhotoWords): Promise<void>;
  /** Both wrote the same of one photograph, and somebody has to choose. */
  readonly met: MetPhoto | null;
  leaveMet(): void;
}

interface Case {
  readonly sheet: SheetId;
  /** It is shown as it stood in the past, where nothing can be changed. */
  readonly past: boolean;
  /** Saves a sheet that is no case yet; tells whether it is one now. Left out where it is one. */
  readonly makeCase?: (() => Promise<boolean>) | undefined;
  onPhotos(photos: readonly CasePhoto[]): void;
}

/** What can be done with the photographs of a case. Pictures pasted anywhere are added, unless the case is shown as it stood in the past. */
export function usePhotos({ sheet, past, makeCase, onPhotos }: Case): PhotoEdits {
  const [said, setSaid] = useState('');
  const [refused, setRefused] = useState<readonly string[]>([]);
  const [adding, setAdding] = useState(false);
  const [met, setMet] = useState<MetPhoto | null>(null);
  /** The photographs as they are now. */
  const readAnew = async (): Promise<readonly CasePhoto[] | null> => {
    const reply = await desk.ask('cases.open', { sheet });
    if (!reply.ok) return null;
    onPhotos(reply.value.photos);
    return reply.value.photos;
  };

  const add = async (files: readonly File[]) => {
    if (files.length === 0 || past) return;
    setAdding(true);
    if (makeCase !== undefined && !(await makeCase())) {
      setAdding(false);
      setSaid('');
      return setRefused(['Nothing was added: photographs belong to a case, and the sheet could not be saved as one.']);
    }
    const troubles: string[] = [];
    let added = 0;
    // One after the other: each may be ten megabytes.
    for (const one of files) {
      const read = await readPhotoFile(one);
      if (!read.ok) {
        troubles.push(read.sentence);
        continue;
      }
      const reply = await desk.ask('photos.add', { sheet, ...read.file, caption: '', about: null });
      if (reply.ok) {
        added += 1;
        onPhotos(reply.value);
      } else troubles.push(reply.trouble.sentence);
    }
    setAdding(false);
    setRefused(troubles);
    const saved = makeCase === undefined ? '' : 'The sheet was saved first. ';
    setSaid(added === 0 ? saved : `${saved}${sayMany(added, 'photograph')} added; where it was taken is not kept.`);
  };
  const latestAdd = useRef(add);
  latestAdd.current = add;
  useEffect(() => {
    const onPaste = (event: ClipboardEvent) => {
      const pictures = picturesIn(event.clipboardData);
      if (pictures.length === 0) return;
      event.preventDefault();
      void latestAdd.current(pictures);
    };
    window.addEventListener('paste', onPaste);
    return () => window.removeEventListener('paste', onPaste);
  }, []);
  const remove = async (photo: CasePhoto): Promise<boolean> => {
    const reply = await desk.ask('photos.remove', { sheet, photo: photo.id, madeAgainst: photo.version });
    if (!reply.ok) {
      if (reply.trouble.code === 'changed-since') await readAnew();
      setRefused([reply.trouble.sentence]);
      return false;
    }
    setSaid('Photograph removed.');
    onPhotos(reply.value);
    return true;
  };
  const describeAnew = async (photo: CasePhoto, change: PhotoWords): Promise<void> => {
    const reply = await desk.ask('photos.describe', { sheet, photo: photo.id, ...change, madeAgainst: photo.version });
    if (reply.ok) {
      setRefused([]);
      return onPhotos(reply.value);
    }
    if (reply.trouble.code !== 'changed-since') return setRefused([reply.trouble.sentence]);
    const theirs = (await readAnew())?.find(({ id }) => id === photo.id);
    if (theirs === undefined) return setRefused([reply.trouble.sentence]);
    setMet({ base: photo, mine: change, theirs });
  };
  return { adding, said, refused, add, remove, describeAnew, met, leaveMet: () => setMet(null) };
}
