import { type ReactNode, useMemo, useState } from 'react';
import type { KeptSettings } from '../../db/answers.ts';
import { noShop, type Shop, ShopContext, useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { writeDecimalsWith } from '../values/sayings.ts';

const whoWorksHere = 'who-works-here';

/** The list of who works here, for a box that asks for a name; none where the shop has said nobody. */
export const useWhoList = (): string | undefined => (useShop().settings.people.names.length > 0 ? whoWorksHere : undefined);

/** Asks once what the shop says of itself, and tells the screens. Nothing waits for it. */
export function HeldShop({ children }: { readonly children: ReactNode }) {
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
      {children}
      <datalist id={whoWorksHere}>
        {shop.settings.people.names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </ShopContext>
  );
}

const valuesOf = ({ letterhead, money, measures, people, counter }: KeptSettings): Shop['settings'] => ({
  letterhead: letterhead.value,
  money: money.value,
  measures: measures.value,
  people: people.value,
  counter: counter.value,
});
