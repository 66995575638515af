import { useState } from 'react';
import type { SaidOfMany } from '../../electron/bridge/edit-calls.ts';
import { useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { asId } from '../route/asId.ts';
import { sayFact } from '../values/sayFact.ts';
import { sayMany } from '../values/sayMany.ts';
import { ChangePanel } from './ChangePanel.tsx';
import { MakeBar } from './MakeBar.tsx';
import { useMakingHere } from './making.ts';
import { RefField } from './RefField.tsx';
import { useLook } from './useLook.ts';

type What = SaidOfMany['of'];

/** One thing said of several parts at once: a feature, the maker, or the source; or nothing any more. */
export function ManyParts({ marked, onDone }: { readonly marked: ReadonlyMap<string, string>; onDone(): void }) {
  const words = useWords();
  const [what, setWhat] = useState<What>('feature');
  const [feature, setFeature] = useState<string | null>(null);
  const [typed, setTyped] = useState('');
  const [clear, setClear] = useState(false);
  const [maker, setMaker] = useState<string | null | undefined>(undefined);
  const [source, setSource] = useState<string | null>(null);
  const making = useMakingHere();
  const read = useAsk(
    'edit.facts',
    what === 'feature' && feature !== null && typed.trim() !== '' ? { cells: { [feature]: typed } as never } : null,
    100,
  );
  const cell = feature === null || read.state !== 'answered' ? undefined : read.value[asId<never>(feature)];
  const said: SaidOfMany | null =
    what === 'maker'
      ? maker === undefined
        ? null
        : { of: 'maker', maker: maker === null ? null : asId(maker) }
      : what === 'source'
        ? source === null
          ? null
          : { of: 'source', source: asId(source) }
        : feature === null
          ? null
          : clear
            ? { of: 'feature', feature: asId(feature), fact: null }
            : cell?.ok
              ? { of: 'feature', feature: asId(feature), fact: cell.fact }
              : null;
  const asked = useAsk('edit.many', said === null ? null : { parts: [...marked.keys()].map((id) => asId<never>(id)), said: said as never });
  const edits = said !== null && asked.state === 'answered' ? asked.value : [];
  const looked = useLook(edits);
  const known = feature === null ? undefined : words.feature(asId(feature));
  const make = async () => {
    if (await making.make(edits, looked, 'parts')) {
      setTyped('');
      setMaker(undefined);
      setSource(null);
    }
  };
  return (
    <>
      <section className="edit-many" aria-label="Several at once">
        <h2 className="head">{sayMany(marked.size, 'part')} marked</h2>
        <p className="small soft">{[...marked.values()].slice(0, 6).join(', ') + (marked.size > 6 ? ' …' : '')}</p>
        <button type="button" className="button plain" onClick={onDone}>
          Mark none
        </button>
        <label className="edit-many-line">
          Say of all of them{' '}
          <select className="field" value={what} onChange={({ target }) => setWhat(target.value as What)}>
            <option value="feature">a feature</option>
            <option value="maker">the maker</option>
            <option value="source">the source</option>
          </select>
        </label>
        {what === 'maker' && (
          <>
            <RefField
              label="the maker of all of them"
              list="makers"
              value={maker ?? null}
              none={maker === null ? 'no maker’s name' : 'type a name'}
              onPick={setMaker}
              onClear={() => setMaker(undefined)}
            />
            <label className="small">
              <input type="checkbox" checked={maker === null} onChange={({ target }) => setMaker(target.checked ? null : undefined)} /> They
              bear no maker’s name
            </label>
          </>
        )}
        {what === 'source' && (
          <RefField label="the source of all of them" list="sources" value={source} none="type its title" onPick={setSource} />
        )}
        {what === 'feature' && (
          <>
            <RefField label="the feature" list="features" value={feature} none="type the feature" onPick={setFeature} />
            {known !== undefined && (
              <>
                <input
                  className="field"
                  type="text"
                  aria-label={`${known.name} of all of them`}
                  placeholder="51.5 ±0.05, yes, ?"
                  disabled={clear}
                  value={typed}
                  onChange={({ target }) => setTyped(target.value)}
                />
                <p className="small" role="status">
                  {typed.trim() !== '' &&
                    !clear &&
                    cell !== undefined &&
                    (cell.ok ? sayFact(known, cell.fact, words.unit) : <span className="field-fault">{cell.sentence}</span>)}
                </p>
                <label className="small">
                  <input type="checkbox" checked={clear} onChange={({ target }) => setClear(target.checked)} /> Say nothing of it any more
                </label>
              </>
            )}
          </>
        )}
        <ChangePanel
          edits={edits}
          looked={looked}
          nothing="As soon as it is clear what is said of them, what it would change is shown here."
        />
      </section>
      <MakeBar
        place="parts"
        edits={edits}
        looked={looked}
        waits={null}
        madeIt={null}
        onMake={() => void make()}
        onDiscard={() => {
          setTyped('');
          setMaker(undefined);
          setSource(null);
          setClear(false);
        }}
      />
    </>
  );
}
