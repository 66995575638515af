import type { CaseFilter } from '../../db/answers.ts';
import { landmark } from '../look/landmarks.ts';
import { onSearchKey } from '../look/searchKeys.ts';

const statuses = [
  ['', 'any claim'],
  ['stands', 'claim stands'],
  ['open', 'claim open'],
  ['ruled out', 'claim ruled out'],
  ['none', 'nothing claimed or judged'],
] as const;

/** What the list is narrowed by, as it is typed. */
export type AskedCases = Readonly<Record<'text' | 'from' | 'to' | 'status' | 'lookedBy', string>>;

export const everyCase: AskedCases = { text: '', from: '', to: '', status: '', lookedBy: '' };

/** What is walked along in the list: the title of each case. */
export const titlesOfCases = '.case-title';

interface Props {
  readonly asked: AskedCases;
  /** Who looked at some case. */
  readonly people: readonly string[];
  readonly narrowed: boolean;
  onAsked(asked: AskedCases): void;
  /** Enter in the box for words. */
  onEnter(): void;
}

/** Words, days, claim and who looked: what narrows the list of cases. */
export function CaseFilterBar({ asked, people, narrowed, onAsked, onEnter }: Props) {
  const set = (part: Partial<AskedCases>) => onAsked({ ...asked, ...part });
  return (
    <search className="case-filter no-print" {...landmark('search')}>
      <input
        className="field"
        type="search"
        aria-label="Words in number, title, customer, notes, claimed name, serial or plate number"
        placeholder="number, title, customer, notes, claim, serial, plate"
        maxLength={200}
        spellCheck={false}
        autoComplete="off"
        value={asked.text}
        onChange={(event) => set({ text: event.target.value })}
        onKeyDown={(event) => onSearchKey(event, titlesOfCases, onEnter)}
      />
      <label>
        opened from{' '}
        <input
          className="field"
          type="date"
          value={asked.from}
          max={asked.to || undefined}
          onChange={(event) => set({ from: event.target.value })}
        />
      </label>
      <label>
        to{' '}
        <input
          className="field"
          type="date"
          aria-label="opened to"
          value={asked.to}
          min={asked.from || undefined}
          onChange={(event) => set({ to: event.target.value })}
        />
      </label>
      <select
        className="field"
        aria-label="Status of the claim"
        value={asked.status}
        onChange={(event) => set({ status: event.target.value })}
      >
        {statuses.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
      <select className="field" aria-label="Who looked" value={asked.lookedBy} onChange={(event) => set({ lookedBy: event.target.value })}>
        <option value="">anybody</option>
        {people.map((who) => (
          <option key={who}>{who}</option>
        ))}
      </select>
      {narrowed && (
        <button type="button" className="button plain" onClick={() => onAsked(everyCase)}>
          Show all
        </button>
      )}
    </search>
  );
}

/** What is left empty does not narrow. */
export const filterOf = ({ text, from, to, status, lookedBy }: AskedCases): CaseFilter => {
  const wanted = statuses.map(([value]) => value).find((value) => value === status);
  return {
    ...(text.trim() === '' ? {} : { text: text.trim() }),
    ...(from === '' ? {} : { from }),
    ...(to === '' ? {} : { to }),
    ...(wanted === undefined || wanted === '' ? {} : { status: wanted }),
    ...(lookedBy === '' ? {} : { lookedBy }),
  };
};
