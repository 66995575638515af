import { createContext, useContext } from 'react';
import type { Words } from './words.ts';

export const WordsContext = createContext<Words | null>(null);

/** The atlas's vocabulary; every screen is drawn inside the provider. */
export function useWords(): Words {
  const words = useContext(WordsContext);
  if (words === null) throw new Error('useWords is called outside WordsContext');
  return words;
}
