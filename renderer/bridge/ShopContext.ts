import { createContext, useContext } from 'react';
import type { KeptSettings, ShopSettings } from '../../db/answers.ts';
import { firstCounterLetter } from '../../reasoner/plain/counter-letter.ts';

/** What the shop says of itself, as the window knows it, and how to ask anew. */
export interface Shop {
  readonly settings: ShopSettings;
  /** Null until it was told. */
  readonly kept: KeptSettings | null;
  refresh(): void;
}

/** What holds until it is told. */
export const noShop: Shop = {
  settings: {
    letterhead: { name: '', lines: [], logo: null },
    money: null,
    measures: { unit: 'mm', comma: false },
    people: { names: [] },
    counter: { letter: firstCounterLetter },
  },
  kept: null,
  refresh: () => undefined,
};

export const ShopContext = createContext<Shop>(noShop);
export const useShop = (): Shop => useContext(ShopContext);
