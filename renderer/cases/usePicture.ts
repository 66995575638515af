import { useEffect, useState } from 'react';
import type { PhotoId } from '../../db/answers.ts';
import { desk } from '../bridge/desk.ts';
import { addressOf } from './photoFile.ts';

/** The address of a stored picture, fetched over the bridge and kept in the window; null while it comes, or where it cannot. */
export function usePicture(
  photo: PhotoId,
  which: 'whole' | 'thumbnail',
): { readonly address: string | null; readonly trouble: string | null } {
  const [address, setAddress] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    let made: string | null = null;
    let current = true;
    void desk.ask('photos.read', { photo, which }).then((reply) => {
      if (!current) return;
      if (!reply.ok) return setTrouble(reply.trouble.sentence);
      made = addressOf(reply.value.type, reply.value.data);
      setAddress(made);
    });
    return () => {
      current = false;
      if (made !== null) URL.revokeObjectURL(made);
    };
  }, [photo, which]);
  return { address, trouble };
}
