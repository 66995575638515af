import { useWords } from '../bridge/WordsContext.ts';
import { type Glossary, glossaryOf } from './glossary.ts';

/** The trade terms of the atlas. */
export const useGlossary = (): Glossary => glossaryOf(useWords().vocabulary.terms);
