import type { Store } from '../../db/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import { HeldFiles } from './held-files.ts';

const { partBytes } = limits;

/** Cases as files, out and in. Bytes are base64 on the bridge and nowhere else. */
export const parcelCalls = (store: Store): Calls<'parcel'> => {
  const [out, come] = [new HeldFiles(), new HeldFiles()];
  return {
    'parcel.write': async ({ sheet }) => {
      const written = await store.cases.write(sheet);
      if (!written.ok) return written;
      const { number, bytes } = written.value;
      const name = parcelName(number);
      return well({ token: out.begin(name, bytes), name, parts: Math.max(1, Math.ceil(bytes.length / partBytes)) });
    },
    'parcel.part': async ({ token, part }) => {
      const held = out.whole(token);
      if (held === null) return gone;
      const data = held.bytes.subarray(part * partBytes, (part + 1) * partBytes);
      if (data.length === 0) return refusal('not-found', 'part', `The file has no part ${part}.`);
      if ((part + 1) * partBytes >= held.bytes.length) out.drop(token);
      return well({ data: data.toString('base64') });
    },
    'parcel.handIn': async ({ token, name, data }) => {
      const taking = token ?? come.begin(name);
      const bytes = come.add(taking, Buffer.from(data, 'base64'));
      if (bytes === null) return gone;
      if (bytes <= limits.parcelBytes) return well({ token: taking, bytes });
      come.drop(taking);
      return refusal(
        'case-file-too-large',
        name,
        `${name} is too large: the most is ${limits.parcelBytes / 1024 / 1024} MiB. Nothing was taken in.`,
      );
    },
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

const gone = refusal(
  'not-found',
  'token',
  'That file is no longer held: it was fetched or taken in, or others came after it. Begin again.',
);
