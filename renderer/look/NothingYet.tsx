import './nothing-yet.css';
import type { ReactNode } from 'react';
import { hrefOf } from '../route/route.ts';

/** Where there is nothing to show yet: what to do so that there is. */
export function NothingYet({ children }: { readonly children: ReactNode }) {
  return <div className="nothing-yet">{children}</div>;
}

/** The atlas lists no models; `so` says what cannot be done without. */
export function NoModelsYet({ so }: { readonly so: string }) {
  return (
    <NothingYet>
      <p>The atlas lists no models yet, {so}.</p>
      <ul>
        <li>
          <a href={hrefOf({ screen: 'packs' })}>Bring in a pack</a> somebody made, or put in the invented atlas to look round.
        </li>
        <li>
          Or put in what your shop knows: <a href={hrefOf({ screen: 'table' })}>from a spreadsheet</a>, or{' '}
          <a href={hrefOf({ screen: 'edit', place: { at: 'lists' } })}>entry by entry</a>.
        </li>
      </ul>
    </NothingYet>
  );
}
