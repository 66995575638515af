import './key.css';
import { useState } from 'react';
import type { CheckScope, FamilyId, KeyAsked } from '../../reasoner/index.ts';
import { ScopeFields } from '../apart/ScopeFields.tsx';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox } from '../look/Combobox.tsx';
import { NoModelsYet } from '../look/NothingYet.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo } from '../route/route.ts';
import { KeyPlaces } from './KeyPlaces.tsx';

const levels = [
  ['models', 'to the model'],
  ['families', 'to the family'],
] as const;

/** An identification key to the whole atlas or some families, to be read here or hung on the wall. */
export function KeyScreen({ families }: { readonly families: readonly FamilyId[] }) {
  const [level, setLevel] = useState<KeyAsked['level']>('models');
  const { stages, models } = useWords().vocabulary;
  // As received: whoever stands before the wall has taken nothing apart yet.
  const [scope, setScope] = useState<CheckScope>({ letters: false, stages: stages.slice(0, 1).map(({ id }) => id) });
  const none = models.length === 0;
  const asked = useAsk('key.of', none ? null : { level, scope, ...(families.length === 0 ? {} : { families: [...families] }) });
  const key = latest(asked);
  return (
    <main className="page-screen key-screen" aria-busy={asked.state === 'waiting'}>
      <header className="page-ask">
        <h1 className="page-title">Key</h1>
        <FamilyPicker families={families} />
        <fieldset className="scope-fields no-print" aria-label="How far the key leads">
          {levels.map(([value, name]) => (
            <label key={value}>
              <input type="radio" name="key-level" value={value} checked={level === value} onChange={() => setLevel(value)} /> {name}
            </label>
          ))}
        </fieldset>
        <ScopeFields scope={scope} onChange={setScope} />
        <button type="button" className="button no-print" disabled={key === null} onClick={() => window.print()}>
          Print
        </button>
      </header>
      {none && <NoModelsYet so="so there is nothing to make a key to" />}
      {asked.state === 'trouble' && <TroubleNote lead="No key could be made." trouble={asked.trouble} />}
      {key === null && asked.state === 'waiting' && (
        <p className="soft page-hint" role="status">
          Making the key…
        </p>
      )}
      {key !== null && asked.state !== 'trouble' && <KeyPlaces answer={key} />}
    </main>
  );
}

/** Which families the key is to; none chosen is the whole atlas. Makers add all of theirs. */
function FamilyPicker({ families }: { readonly families: readonly FamilyId[] }) {
  const words = useWords();
  const { makers, families: all } = words.vocabulary;
  const left = all.filter(({ id }) => !families.includes(id));
  const items = [
    ...makers.flatMap(({ id, name }) => {
      const own = left.filter(({ maker }) => maker === id).map((family) => family.id);
      return own.length === 0 ? [] : [{ key: `maker ${id}`, text: name, detail: 'all its families', value: own }];
    }),
    ...left.map(({ id, name, maker }) => ({ key: `family ${id}`, text: name, detail: words.makerName(maker), value: [id] })),
  ];
  return (
    <div className="subject-picker">
      <ul aria-label="Families of the key">
        {families.length === 0 && <li>The whole atlas</li>}
        {families.map((id) => (
          <li key={id}>
            <span>{words.familyName(id)}</span>
            <button
              type="button"
              className="button bare no-print"
              aria-label={`Leave out ${words.familyName(id)}`}
              onClick={() => goTo({ screen: 'key', families: families.filter((one) => one !== id) })}
            >
              ×
            </button>
          </li>
        ))}
      </ul>
      <Combobox
        className="no-print"
        label="Add a family or a maker"
        placeholder={families.length === 0 ? 'only a family or maker' : 'and'}
        items={items}
        onPick={(added) => goTo({ screen: 'key', families: [...families, ...added] })}
      />
    </div>
  );
}
