import type { Store } from '../../db/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Calls } from '../bridge/desk.ts';
import { well } from '../bridge/reply.ts';
import { gone, HeldFiles } from './held-files.ts';

/** Cases as files, out and in. Bytes are base64 on the bridge and nowhere else. */
export const parcelCalls = (store: Store): Calls<'parcel'> => {
  const [out, come] = [new HeldFiles(), new HeldFiles()];
  return {
    'parcel.write': async ({ sheet }) => {
      const written = await store.cases.write(sheet);
      if (!written.ok) return written;
      const { number, bytes } = written.value;
      const name = parcelName(number);
      const token = out.begin(name, bytes);
      return well({ token, name, parts: out.partsOf(token) });
    },
    'parcel.part': async ({ token, part }) => out.part(token, part),
    'parcel.handIn': async (part) =>
      come.handIn(part, { most: limits.parcelBytes, code: 'case-file-too-large', beside: 'Nothing was taken in.' }),
    'parcel.look': async ({ token }) => {
      const held = come.whole(token);
      return held === null ? gone : store.cases.look(held.bytes, held.name);
    },
    'parcel.takeIn': async ({ token, as, who }) => {
      const held = come.whole(token);
      if (held === null) return gone;
      const taken = await store.cases.takeIn(held.bytes, held.name, { as, who });
      if (taken.ok) come.drop(token);
      return taken;
    },
  };
};

/** What the file of a case is called. */
export const parcelName = (number: string): string => `case-${number}.zip`;
