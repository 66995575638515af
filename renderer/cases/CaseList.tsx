import './cases.css';
import { useEffect, useState } from 'react';
import type { CaseFilter } from '../../db/answers.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { giveFile } from '../shelf/giveFile.ts';
import { type CaseActions, CaseRow } from './CaseRow.tsx';
import { sayMany } from './sayCase.ts';

interface Props extends CaseActions {
  /** Changes when a sheet was saved, copied or removed, and the list is asked for anew. */
  readonly version: unknown;
  readonly benchSheet: SheetId;
  readonly unsaved: boolean;
  onSaid(text: string): void;
}

const statuses = [
  ['', 'any claim'],
  ['stands', 'claim stands'],
  ['open', 'claim open'],
  ['ruled out', 'claim ruled out'],
  ['none', 'nothing claimed or judged'],
] as const;

/** How long typing may settle before the desk is asked, ms. */
const settle = 90;

/** The shop's cases, last saved first, narrowed by words, days, claim and who looked. */
export function CaseList({ version, benchSheet, unsaved, onSaid, ...actions }: Props) {
  const [asked, setAsked] = useState({ text: '', from: '', to: '', status: '', lookedBy: '' });
  const [people, setPeople] = useState<readonly string[]>([]);
  const [count, setCount] = useState(0);
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly sentence: string } | null>(null);
  const filter = filterOf(asked);
  // The version is part of the question: the same filter is asked again after a change.
  const found = useAsk('cases.list', filter, settle, version);
  const cases = latest(found);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `version` stands for the cases there are.
  useEffect(() => {
    void desk.ask('cases.list', {}).then((reply) => {
      if (!reply.ok) return;
      setCount(reply.value.length);
      setPeople([...new Set(reply.value.map(({ lookedBy }) => lookedBy).filter((who) => who !== ''))].sort());
    });
  }, [version]);

  const writeCsv = async () => {
    const reply = await desk.ask('cases.csv', filter);
    if (!reply.ok) return setTrouble({ lead: 'The table could not be written.', sentence: reply.trouble.sentence });
    setTrouble(null);
    // The mark tells spreadsheets that the text is UTF-8; without it they take it for the system's own letters.
    giveFile('cases.csv', `\ufeff${reply.value}`, 'text/csv;charset=utf-8');
    onSaid('Written: cases.csv.');
  };
  const set = (part: Partial<typeof asked>) => setAsked({ ...asked, ...part });
  const narrowed = Object.keys(filter).length > 0;

  return (
    <section aria-labelledby="shelf-own">
      <div className="case-list-head">
        <h2 id="shelf-own" className="head">
          The shop’s own cases
        </h2>
        <span className="small soft" role="status">
          {cases !== null && (narrowed ? `${cases.length} of ${sayMany(count, 'case')}` : sayMany(cases.length, 'case'))}
        </span>
        <button type="button" className="button plain" disabled={cases === null || cases.length === 0} onClick={() => void writeCsv()}>
          Write the table (CSV)
        </button>
      </div>
      <search className="case-filter no-print">
        <input
          className="field"
          type="search"
          aria-label="Words in number, title, customer, notes or claimed name"
          placeholder="number, title, customer, notes, claimed name"
          maxLength={200}
          spellCheck={false}
          autoComplete="off"
          value={asked.text}
          onChange={(event) => set({ text: event.target.value })}
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
        <select
          className="field"
          aria-label="Who looked"
          value={asked.lookedBy}
          onChange={(event) => set({ lookedBy: event.target.value })}
        >
          <option value="">anybody</option>
          {people.map((who) => (
            <option key={who}>{who}</option>
          ))}
        </select>
        {narrowed && (
          <button type="button" className="button plain" onClick={() => setAsked({ text: '', from: '', to: '', status: '', lookedBy: '' })}>
            Show all
          </button>
        )}
      </search>
      {found.state === 'trouble' && <TroubleNote lead="The cases could not be listed." trouble={found.trouble} />}
      {trouble !== null && (
        <p className="trouble" role="alert">
          <strong>{trouble.lead}</strong> {trouble.sentence}
        </p>
      )}
      <ul className="case-list">
        {cases?.map((one) => (
          <CaseRow
            key={one.sheet}
            one={one}
            onBench={one.sheet === benchSheet}
            unsaved={one.sheet === benchSheet && unsaved}
            {...actions}
          />
        ))}
      </ul>
      {cases !== null && cases.length === 0 && (
        <p className="soft">
          {narrowed ? 'No case is like that.' : 'Nothing saved yet. A sheet becomes a case when it is saved; so does a sample.'}
        </p>
      )}
    </section>
  );
}

/** What is left empty does not narrow. */
const filterOf = ({ text, from, to, status, lookedBy }: Record<'text' | 'from' | 'to' | 'status' | 'lookedBy', string>): CaseFilter => {
  const wanted = statuses.map(([value]) => value).find((value) => value === status);
  return {
    ...(text.trim() === '' ? {} : { text: text.trim() }),
    ...(from === '' ? {} : { from }),
    ...(to === '' ? {} : { to }),
    ...(wanted === undefined || wanted === '' ? {} : { status: wanted }),
    ...(lookedBy === '' ? {} : { lookedBy }),
  };
};
