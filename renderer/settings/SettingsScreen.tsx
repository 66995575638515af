import './settings.css';
import { useShop } from '../bridge/ShopContext.ts';
import { hrefOf } from '../route/route.ts';
import { CounterForm } from './CounterForm.tsx';
import { LetterheadForm } from './LetterheadForm.tsx';
import { MeasuresForm } from './MeasuresForm.tsx';
import { MoneyForm } from './MoneyForm.tsx';
import { PeopleForm } from './PeopleForm.tsx';

/** What the shop says of itself: what stands on its paper, in what money it asks, how it reads its rules, who works there. */
export function SettingsScreen() {
  const { kept } = useShop();
  return (
    <main className="page-screen settings-screen">
      <header className="page-ask">
        <h1 className="page-title">The shop</h1>
        <a href={hrefOf({ screen: 'sheets' })}>Back to the sheets</a>
        <a href={hrefOf({ screen: 'stock' })}>Stock</a>
        <a href={hrefOf({ screen: 'prices' })}>Prices</a>
      </header>
      {kept === null ? (
        <p className="soft page-hint">Asking what the shop says of itself…</p>
      ) : (
        <div className="settings-columns">
          <div>
            <LetterheadForm read={kept.letterhead} />
          </div>
          <div>
            <CounterForm read={kept.counter} />
            <PeopleForm read={kept.people} />
            <MoneyForm read={kept.money} />
            <MeasuresForm read={kept.measures} />
          </div>
        </div>
      )}
    </main>
  );
}
