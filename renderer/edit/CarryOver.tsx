import { useMemo, useState } from 'react';
import type { Edit } from '../../db/answers.ts';
import { capital, numberInWords } from '../../reasoner/plain/text.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo } from '../route/route.ts';
import { ChangePanel } from './ChangePanel.tsx';
import { setDraft } from './drafts.ts';
import { listWords } from './fieldWords.ts';
import { MakeBar } from './MakeBar.tsx';
import { useMakingHere } from './making.ts';
import { RefField } from './RefField.tsx';
import { cellName, sayCell } from './sayCell.ts';
import { useLook } from './useLook.ts';

const merged = ['makers', 'families', 'generations', 'models', 'parts', 'sources', 'instruments', 'terms'];
type Way = 'rename' | 'merge' | 'number' | 'drop';

/** An entry under another id, made one with another, or taken out: with all that refers to it, and what that would change. */
export function CarryOver(props: { readonly list: string; readonly id: string; readonly name: string; onBack(): void }) {
  const { list, id, name } = props;
  const words = useWords();
  const one = listWords[list]?.one ?? list;
  const [way, setWay] = useState<Way>('rename');
  const [to, setTo] = useState('');
  const [into, setInto] = useState<string | null>(null);
  const [numbers, setNumbers] = useState({ from: '', to: '' });
  const [choices, setChoices] = useState<Readonly<Record<string, 'kept' | 'other'>>>({});
  const making = useMakingHere();
  const renamed = useAsk('edit.renamed', way === 'rename' && to.trim() !== '' ? { list, from: id, to: to.trim() } : null, 150);
  const one_ = useAsk('edit.merged', way === 'merge' && into !== null ? { list, from: id, into, choices: { ...choices } } : null);
  const numbered = useAsk(
    'edit.renumbered',
    way === 'number' && numbers.from.trim() !== '' && numbers.to.trim() !== ''
      ? { from: numbers.from.trim(), to: numbers.to.trim() }
      : null,
    150,
  );
  const differences = (way === 'merge' && into !== null && latest(one_)?.differences) || [];
  const open = differences.filter(({ key }) => choices[key] === undefined).length;
  const edits = useMemo<readonly Edit[]>(() => {
    switch (way) {
      case 'rename':
        return renamed.state === 'answered' ? renamed.value : [];
      case 'merge':
        return one_.state === 'answered' ? one_.value.edits : [];
      case 'number':
        return numbered.state === 'answered' ? numbered.value : [];
      case 'drop':
        return [{ list, drop: id }];
    }
  }, [way, renamed, one_, numbered, list, id]);
  const looked = useLook(edits);
  const trouble = [renamed, one_, numbered].flatMap((asked) => (asked.state === 'trouble' ? [asked.trouble] : []))[0];
  const make = async () => {
    const next = way === 'rename' ? to.trim() : way === 'merge' ? into : way === 'number' ? id : null;
    if (open > 0 || !(await making.make(edits, looked, next === null ? list : `${list}/${next}`))) return;
    setDraft(`${list}/${id}`, null);
    props.onBack();
    goTo({ screen: 'edit', place: next === null ? { at: 'list', list } : { at: 'entry', list, id: next } });
  };
  const ways: readonly (readonly [Way, string])[] = [
    ['rename', 'Give it another id'],
    ...(merged.includes(list) ? [['merge', `Make it one with another ${one}`] as const] : []),
    ...(list === 'parts' ? [['number', 'Write one of its numbers another way, everywhere'] as const] : []),
    ['drop', `Take this ${one} out of the atlas`],
  ];
  return (
    <>
      <div className="edit-form">
        <p className="head">
          <button type="button" className="button plain" onClick={props.onBack}>
            Back to its form
          </button>
        </p>
        <h1 className="page-title">{name}</h1>
        <fieldset className="edit-ways">
          <legend className="unseen">What is to be done</legend>
          {ways.map(([is, text]) => (
            <label key={is}>
              <input type="radio" name="way" checked={way === is} onChange={() => setWay(is)} /> {text}
            </label>
          ))}
        </fieldset>
        {trouble !== undefined && <TroubleNote lead="This cannot be done." trouble={trouble} />}
        {way === 'rename' && (
          <p>
            <label>
              Its id is “{id}”. From now on it is{' '}
              <input className="field" type="text" maxLength={100} value={to} onChange={({ target }) => setTo(target.value)} />
            </label>{' '}
            <span className="small soft">
              Everything that refers to it takes the new id, and what the shop keeps of it goes along. Sheets of saved cases keep the old
              one.
            </span>
          </p>
        )}
        {way === 'merge' && (
          <>
            <div className="edit-merge">
              “{name}” goes; what stays is{' '}
              <RefField
                label={`the ${one} that stays`}
                list={list}
                value={into}
                none={`type the name of the other ${one}`}
                but={[id]}
                onPick={setInto}
              />
            </div>
            {differences.length > 0 && (
              <table className="page-table">
                <caption className="small soft">Where the two differ. Mark what holds.</caption>
                <thead>
                  <tr>
                    <th scope="col">What</th>
                    <th scope="col">The one that stays</th>
                    <th scope="col">The one that goes</th>
                  </tr>
                </thead>
                <tbody>
                  {differences.map(({ key, field, line, kept, other }) => {
                    const of = { list: field === 'allowed' ? 'allowed' : list, field, line };
                    const say = (said: unknown) =>
                      field === 'allowed' ? sayCell(words, of, { role: said } as never) : sayCell(words, of, said as never);
                    const called = field === 'allowed' ? `role in ${words.modelName(line as never)}` : cellName(words, of);
                    return (
                      <tr key={key}>
                        <th scope="row">{called}</th>
                        {(['kept', 'other'] as const).map((side) => (
                          <td key={side}>
                            <label>
                              <input
                                type="radio"
                                name={key}
                                checked={choices[key] === side}
                                onChange={() => setChoices({ ...choices, [key]: side })}
                              />{' '}
                              {say(side === 'kept' ? kept : other)}
                            </label>
                          </td>
                        ))}
                      </tr>
                    );
                  })}
                </tbody>
              </table>
            )}
          </>
        )}
        {way === 'number' && (
          <p>
            <label>
              The number{' '}
              <input
                className="field"
                type="text"
                maxLength={200}
                value={numbers.from}
                onChange={({ target }) => setNumbers({ ...numbers, from: target.value })}
              />
            </label>{' '}
            <label>
              is written{' '}
              <input
                className="field"
                type="text"
                maxLength={200}
                value={numbers.to}
                onChange={({ target }) => setNumbers({ ...numbers, to: target.value })}
              />
            </label>
          </p>
        )}
      </div>
      <ChangePanel edits={edits} looked={looked} nothing="As soon as it is clear what is to be done, what it would change is shown here." />
      <MakeBar
        place={`${list}/${id}`}
        edits={edits}
        looked={looked}
        waits={open > 0 ? `${open === 1 ? 'One thing is' : `${capital(numberInWords(open))} things are`} still to be decided.` : null}
        madeIt={null}
        onMake={() => void make()}
        onDiscard={() => {
          setTo('');
          setInto(null);
          setChoices({});
          setNumbers({ from: '', to: '' });
          setWay('rename');
        }}
      />
    </>
  );
}
