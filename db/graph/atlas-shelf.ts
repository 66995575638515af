import type { Atlas } from '../../reasoner/index.ts';
import type { Vocabulary } from '../answers.ts';
import type { Door } from '../driver/door.ts';
import { type Outcome, TroubleError } from '../trouble.ts';
import { type AtlasState, readAtlas, stateOf } from './read-atlas.ts';
import { vocabularyOf } from './vocabulary.ts';

/** The atlas as it is reasoned over. */
export interface AtlasShelf {
  /** All of it. Throws its trouble, as a TroubleError: without an atlas there is nothing to go on with. */
  read(): Promise<Atlas>;
  vocabulary(): Promise<Outcome<Vocabulary>>;
  /** Which state it is in; asked before every answer, so it is one short read. */
  state(): Promise<Outcome<AtlasState>>;
}

export const atlasShelf = ({ read, one }: Door): AtlasShelf => ({
  read: async () => {
    const atlas = await read((reader) => readAtlas(reader));
    if (!atlas.ok) throw new TroubleError(atlas.trouble);
    return atlas.value;
  },
  vocabulary: () => read(vocabularyOf),
  state: () => one(stateOf),
});
