import { type ReactNode, useMemo, useState } from 'react';
import type { KeptSettings } from '../../db/answers.ts';
import { noShop, type Shop, ShopContext, useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { WordsContext } from '../bridge/WordsContext.ts';
import type { Words } from '../bridge/words.ts';
import { writeDecimalsWith } from '../values/figures.ts';
import { useLengthUnit } from './useLengthUnit.ts';

const whoWorksHere = 'who-works-here';

/** The list of who works here, for a box that asks for a name; none where the shop has said nobody. */
export const useWhoList = (): string | undefined => (useShop().settings.people.names.length > 0 ? whoWorksHere : undefined);

/** Asks once what the shop says of itself, and tells the screens, which say figures and lengths by it. Nothing waits for it. */
export function HeldShop({ words, children }: { readonly words: Words; readonly children: ReactNode }) {
  const [asking, setAsking] = useState(0);
  const kept = latest(useAsk('settings.all', {}, 0, asking));
  const shop = useMemo<Shop>(
    () => ({
      settings: kept === null ? noShop.settings : valuesOf(kept),
      kept,
      refresh: () => setAsking((count) => count + 1),
    }),
    [kept],
  );
  writeDecimalsWith(shop.settings.measures.comma ? ',' : '.');
  return (
    <ShopContext value={shop}>
      <ShownWords words={words}>{children}</ShownWords>
      <datalist id={whoWorksHere}>
        {shop.settings.people.names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </ShopContext>
  );
}

/** The words with the length chosen in them. They are others when the sign before decimals is, so that whatever was said with it is said anew. */
function ShownWords({ words, children }: { readonly words: Words; readonly children: ReactNode }) {
  const [unit] = useLengthUnit();
  const { comma } = useShop().settings.measures;
  // biome-ignore lint/correctness/useExhaustiveDependencies: whatever was drawn from them is drawn anew when the sign changes.
  const shown = useMemo<Words>(() => ({ ...words, unit }), [words, unit, comma]);
  return <WordsContext value={shown}>{children}</WordsContext>;
}

const valuesOf = ({ letterhead, money, measures, people, counter }: KeptSettings): Shop['settings'] => ({
  letterhead: letterhead.value,
  money: money.value,
  measures: measures.value,
  people: people.value,
  counter: counter.value,
});
