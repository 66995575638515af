import { NothingYet } from '../look/NothingYet.tsx';
import { hrefOf, routeOf } from '../route/route.ts';
import { addressMeant } from './addressMeant.ts';

const ways = [
  { name: 'Unit', to: hrefOf({ screen: 'unit' }), for: 'say what a turbocharger on the counter is' },
  { name: 'Sheets', to: hrefOf({ screen: 'sheets' }), for: 'cases and samples' },
  { name: 'Stock', to: hrefOf({ screen: 'stock' }), for: 'what lies on the shelves' },
  { name: 'Atlas', to: hrefOf({ screen: 'atlas', page: null }), for: 'makers, families, models and parts' },
] as const;

/** There is no such screen: said so, with ways on. */
export function UnknownScreen({ address }: { readonly address: string }) {
  const meant = addressMeant(address);
  return (
    <main className="page-screen">
      <header className="page-ask">
        <h1 className="page-title">There is no such screen</h1>
      </header>
      <NothingYet>
        <p role="alert">
          The address <q>{address}</q> leads nowhere. It may have been typed wrong, or come from another edition of Kinplate.
        </p>
        {meant !== null && (
          <p>
            Perhaps this was meant: <a href={hrefOf(routeOf(`#/${meant}`))}>{meant}</a>
          </p>
        )}
        <ul aria-label="Ways on">
          {ways.map((way) => (
            <li key={way.name}>
              <a href={way.to}>{way.name}</a>: {way.for}
            </li>
          ))}
        </ul>
        <p>
          <button type="button" className="button" onClick={() => window.history.back()}>
            Back to where you were
          </button>
        </p>
      </NothingYet>
    </main>
  );
}
