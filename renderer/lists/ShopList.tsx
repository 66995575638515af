import './lists.css';
import { type KeyboardEvent, type ReactNode, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { useWho } from '../bench/useWho.ts';
import { at, landmark } from '../look/landmarks.ts';
import { NothingYet } from '../look/NothingYet.tsx';
import { onSearchKey } from '../look/searchKeys.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { WhoField } from '../look/WhoField.tsx';
import { hrefOf } from '../route/route.ts';

interface Props<Line> {
  readonly title: string;
  /** What was done last. */
  readonly said: string;
  readonly trouble: Trouble | null;
  /** Why the list could not be read. */
  readonly unlisted: string | null;
  readonly link: ReactNode;
  /** The buttons at the top: reading a table, writing one, adding. */
  readonly children: ReactNode;
  readonly find: { readonly label: string; readonly placeholder: string; readonly typed: string; onType(typed: string): void };
  /** Beside the search. */
  readonly narrow?: ReactNode;
  readonly counted: string;
  /** Null until the list was told. */
  readonly inAll: number | null;
  readonly found: readonly Line[];
  /** What to do where nothing is on the list. */
  readonly empty: ReactNode;
  readonly heads: readonly { readonly name: string; readonly figure?: boolean }[];
  /** A row of the table, whose heading holds a button: arrow keys go from one to the next. */
  row(line: Line): ReactNode;
  /** Boxes over the list. */
  readonly doing: ReactNode;
}

/** So many lines are shown at first; more when they are asked for. */
const firstShown = 200;

/** A list of the shop's: found in, put on, changed, taken off, and as a table out and in. */
export function ShopList<Line>(props: Props<Line>) {
  const { find, found, inAll } = props;
  const [who, sayWho] = useWho();
  const [limit, setLimit] = useState(firstShown);
  return (
    <main className="page-screen shop-screen" {...landmark('own undo')}>
      <header className="page-ask">
        <h1 className="page-title">{props.title}</h1>
        <span role="status" className="soft shop-said">
          {props.said}
        </span>
        <WhoField label="Who" who={who} className="no-print" onSay={sayWho} />
        {props.link}
        <a className="no-print" href={hrefOf({ screen: 'settings' })}>
          The shop…
        </a>
        {props.children}
      </header>
      {props.trouble !== null && <TroubleNote lead="Nothing was changed." trouble={props.trouble} />}
      {props.unlisted !== null && <p className="trouble">The list could not be read. {props.unlisted}</p>}
      <search className="shop-search no-print" {...landmark('search')}>
        <input
          className="field"
          type="search"
          aria-label={find.label}
          placeholder={find.placeholder}
          maxLength={200}
          autoComplete="off"
          spellCheck={false}
          value={find.typed}
          onChange={(event) => find.onType(event.target.value)}
          onKeyDown={(event) => onSearchKey(event, 'tbody th button', (first) => first?.click())}
        />
        {props.narrow}
        {inAll !== null && (
          <span className="small soft" role="status">
            {props.counted}
          </span>
        )}
      </search>
      {inAll === 0 && <NothingYet>{props.empty}</NothingYet>}
      {inAll !== null && inAll > 0 && found.length === 0 && (
        <NothingYet>
          <p>
            Nothing on the list is called that. Fewer letters find more. What the atlas knows of a number is asked by <b>Number</b> in the
            bar, or <kbd>F2</kbd>.
          </p>
        </NothingYet>
      )}
      {found.length > 0 && (
        // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line has its buttons.
        <div {...landmark('list')} onKeyDown={walkLines}>
          <table className="line-table shop-table">
            <thead>
              <tr>
                {props.heads.map(({ name, figure = false }) => (
                  <th key={name} scope="col" className={figure ? 'is-figure' : undefined}>
                    {name}
                  </th>
                ))}
                <th scope="col" className="no-print">
                  <span className="unseen">To do</span>
                </th>
              </tr>
            </thead>
            <tbody>{found.slice(0, limit).map(props.row)}</tbody>
          </table>
        </div>
      )}
      {found.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(limit + 5 * firstShown)}>
          {found.length - limit} more
        </button>
      )}
      {props.doing}
    </main>
  );
}

/** Arrow keys go from line to line; up from the first, back to the search. */
const walkLines = (event: KeyboardEvent<HTMLElement>): void => {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0 || !(event.target instanceof HTMLElement)) return;
  const names = [...event.currentTarget.querySelectorAll<HTMLElement>('tbody th button')];
  const place = names.indexOf(event.target.closest('tr')?.querySelector('th button') as HTMLElement);
  if (place < 0) return;
  event.preventDefault();
  if (place + step < 0) document.querySelector<HTMLElement>(at('search', 'input'))?.focus();
  else names[place + step]?.focus();
};
