import type { CaseFile, PhotoId, Saying } from '../../db/answers.ts';
import type { Outcome, Store } from '../../db/index.ts';
import type { CaseFacts, Sheet } from '../../reasoner/index.ts';
import { well } from '../bridge/reply.ts';
import type { PhotoOf } from './photographs.ts';

/** What the shop knows of the case a sheet belongs to; nothing for a sheet that was never saved, or a sample. */
export const caseOf = async (store: Store, sheet: Sheet): Promise<Outcome<CaseFacts | null>> => {
  const opened = await store.cases.open(sheet.id, null);
  if (opened.ok) return well(factsOf(opened.value));
  return opened.trouble.code === 'not-found' ? well(null) : opened;
};

const factsOf = ({ number, openedOn, customer, lookedBy, photos, words }: CaseFile): CaseFacts => ({
  number,
  date: openedOn,
  customer,
  lookedBy,
  ...wordIn(words.at(-1)),
  photographs: photos.map(({ id, caption, about, width, height }) => ({
    hash: id,
    caption,
    slot: about?.kind === 'slot' ? about.slot : null,
    observation: about?.kind === 'observation' ? about.observation : null,
    width,
    height,
  })),
});

const wordIn = (last: Saying | undefined): Pick<CaseFacts, 'word'> => (last?.word ? { word: last.word } : {});

/** A photograph's bytes for the printer; null where they are not there any more. */
export const photoIn =
  (store: Store): PhotoOf =>
  async (hash, which) => {
    const found = await store.photos.bytes(hash as PhotoId, which);
    return found.ok ? { type: found.value.type, data: found.value.bytes } : null;
  };

/** The picture of the letterhead for the printer; null where it has none, or it cannot be read any more. */
export const logoIn = async (store: Store): Promise<Uint8Array | null> => {
  const found = await store.settings.logo();
  return found.ok ? found.value.bytes : null;
};
