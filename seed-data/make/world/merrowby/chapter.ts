import type { Chapter } from '../../pack/draft.ts';
import { Shelf } from '../../pack/shelf.ts';
import { stockCartridgeBirds } from './cartridge-birds.ts';
import { merrowbyFamilies, merrowbyGenerations } from './families.ts';
import { stockJournalBirds } from './journal-birds.ts';
import { merrowby } from './maker.ts';

export const makeMerrowby = (): Chapter => {
  const shelf = new Shelf();
  const models = [...stockJournalBirds(shelf), ...stockCartridgeBirds(shelf)];
  return {
    makers: [merrowby],
    families: merrowbyFamilies,
    generations: merrowbyGenerations,
    models,
    parts: shelf.parts,
    allowed: shelf.allowed,
  };
};
