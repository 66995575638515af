import './cases.css';
import { type ReactNode, useEffect, useState } from 'react';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { SheetId } from '../../reasoner/index.ts';
import type { OpenUnit } from '../bench/BenchContext.ts';
import { desk } from '../bridge/desk.ts';
import { latest, type Pause, useAsk, useSettled } from '../bridge/useAsk.ts';
import { giveFile } from '../look/giveFile.ts';
import { landmark } from '../look/landmarks.ts';
import { NothingYet } from '../look/NothingYet.tsx';
import { useEnterOpens } from '../look/searchKeys.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { walkLinks } from '../look/walkLinks.ts';
import { hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { type AskedCases, CaseFilterBar, everyCase, filterOf, titlesOfCases } from './CaseFilterBar.tsx';
import { type CaseActions, CaseRow } from './CaseRow.tsx';

interface Props extends CaseActions {
  /** Changes when a sheet was saved, copied or removed, and the list is asked for anew. */
  readonly version: unknown;
  /** The sheets that are open here. */
  readonly isOpen: ReadonlyMap<SheetId, OpenUnit>;
  onSaid(text: string): void;
  /** What stands under the list, once its length is known: what is to be pressed must not move away from under the pointer. */
  readonly children: ReactNode;
}

/** How long typing may settle before the desk is asked, ms. The first time nothing has been typed. */
const settle: Pause<CallArgs<'cases.list'>> = (before) => (before === null ? 0 : 90);

/** The shop's cases, last saved first, narrowed by words, days, claim and who looked. */
export function CaseList({ version, isOpen, onSaid, children, ...actions }: Props) {
  const [asked, setAsked] = useState<AskedCases>(everyCase);
  const [people, setPeople] = useState<readonly string[]>([]);
  const [count, setCount] = useState(0);
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly sentence: string } | null>(null);
  const filter = filterOf(asked);
  // The version is part of the question: the same filter is asked again after a change.
  const found = useAsk('cases.list', filter, settle, version);
  const cases = latest(found);
  const opensFirst = useEnterOpens(filter, useSettled(found, filter), actions.onOpen);
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
  const narrowed = Object.keys(filter).length > 0;

  return (
    <>
      <section aria-labelledby="shelf-own">
        <div className="case-list-head">
          <h2 id="shelf-own" className="head">
            The shop’s own cases
          </h2>
          <span className="small soft" role="status">
            {cases !== null && (narrowed ? `${cases.length} of ${sayMany(count, 'case')}` : sayMany(cases.length, 'case'))}
          </span>
          <a className="button plain" href={hrefOf({ screen: 'retold' })}>
            Cases judged once more…
          </a>
          <button type="button" className="button plain" disabled={cases === null || cases.length === 0} onClick={() => void writeCsv()}>
            Write the table (CSV)
          </button>
        </div>
        <CaseFilterBar asked={asked} people={people} narrowed={narrowed} onAsked={setAsked} onEnter={opensFirst} />
        {found.state === 'trouble' && <TroubleNote lead="The cases could not be listed." trouble={found.trouble} />}
        {trouble !== null && (
          <p className="trouble" role="alert">
            <strong>{trouble.lead}</strong> {trouble.sentence}
          </p>
        )}
        <ul className="case-list" {...landmark('list')} onKeyDown={(event) => walkLinks(event, titlesOfCases)}>
          {cases?.map((one) => (
            <CaseRow key={one.sheet} one={one} open={isOpen.get(one.sheet)} {...actions} />
          ))}
        </ul>
        {cases !== null && cases.length === 0 && (
          <NothingYet>
            {narrowed ? (
              <p>
                No case is like that. Fewer letters find more, and so do other days; <b>Show all</b> takes everything back. Samples are not
                looked through.
              </p>
            ) : (
              <p>
                No case yet. Press <b>New sheet</b>, enter what you see of a unit, and <b>Save</b> it: that makes it a case with a number.
                To see how a unit reads, open a sample.
              </p>
            )}
          </NothingYet>
        )}
      </section>
      {(cases !== null || found.state === 'trouble') && children}
    </>
  );
}
