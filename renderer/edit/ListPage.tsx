import { useState } from 'react';
import { withArticle } from '../../reasoner/plain/text.ts';
import { latest, useAsk, useSettled } from '../bridge/useAsk.ts';
import { landmark } from '../look/landmarks.ts';
import { onSearchKey, useEnterOpens } from '../look/searchKeys.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { walkLinks } from '../look/walkLinks.ts';
import { goTo, hrefOf } from '../route/route.ts';
import { listWords } from './fieldWords.ts';
import { MadeNote } from './MakeBar.tsx';
import { ManyParts } from './ManyParts.tsx';

const most = 200;

/** The entries of a list, narrowed by what is typed. Parts can be marked, and several edited at once. */
export function ListPage({ list }: { readonly list: string }) {
  const [text, setText] = useState('');
  const [marked, setMarked] = useState<ReadonlyMap<string, string>>(new Map());
  const search = { list, text, slot: null, limit: most };
  const asked = useAsk('edit.entries', search, text === '' ? 0 : 80);
  const opensFirst = useEnterOpens(search, useSettled(asked, search), ({ id }) =>
    goTo({ screen: 'edit', place: { at: 'entry', list, id } }),
  );
  const found = latest(asked) ?? [];
  const { name, one } = listWords[list] ?? { name: list, one: list };
  const many = list === 'parts';
  const mark = (id: string, called: string, is: boolean) => {
    const next = new Map(marked);
    if (is) next.set(id, called);
    else next.delete(id);
    setMarked(next);
  };
  return (
    <div className={marked.size > 0 ? 'edit-list-page with-many' : 'edit-list-page'}>
      <div className="edit-form">
        <p className="head">
          <a href={hrefOf({ screen: 'edit', place: { at: 'lists' } })}>Edit the atlas</a>
        </p>
        <h1 className="page-title">{name}</h1>
        {marked.size === 0 && <MadeNote place={list} />}
        <p>
          <a className="button main" href={hrefOf({ screen: 'edit', place: { at: 'new', list, like: null } })}>
            Add {withArticle(one)}
          </a>
        </p>
        <search className="edit-find" {...landmark('search')}>
          <input
            className="field"
            type="search"
            aria-label={`Find ${withArticle(one)}`}
            placeholder={many ? 'name or part number' : 'name'}
            maxLength={200}
            spellCheck={false}
            autoComplete="off"
            value={text}
            onChange={({ target }) => setText(target.value)}
            onKeyDown={(event) => onSearchKey(event, 'a', opensFirst)}
          />
          {many && found.length > 0 && (
            <button
              type="button"
              className="button"
              onClick={() => setMarked(new Map([...marked, ...found.map((part) => [part.id, part.name] as const)]))}
            >
              {found.length === most ? `Mark the first ${most}` : `Mark all ${found.length} found`}
            </button>
          )}
        </search>
        {asked.state === 'trouble' && <TroubleNote lead="The list could not be read." trouble={asked.trouble} />}
        <p className="small soft" role="status">
          {latest(asked) === null
            ? 'Looking…'
            : found.length === most
              ? `The first ${most} are shown; type to find others.`
              : `${found.length === 0 ? 'none' : found.length} found`}
        </p>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line is a link. */}
        <div {...landmark('list')} onKeyDown={walkLinks}>
          <ul className="edit-entries">
            {found.map(({ id, name: called, detail }) => (
              <li key={id}>
                {many && (
                  <input
                    type="checkbox"
                    aria-label={`mark ${called}`}
                    checked={marked.has(id)}
                    onChange={({ target }) => mark(id, called, target.checked)}
                  />
                )}
                <a href={hrefOf({ screen: 'edit', place: { at: 'entry', list, id } })}>{called}</a>
                <span className="small soft">{detail}</span>
                <a className="small" href={hrefOf({ screen: 'edit', place: { at: 'new', list, like: id } })}>
                  another like it<span className="unseen">: {called}</span>
                </a>
              </li>
            ))}
          </ul>
        </div>
      </div>
      {marked.size > 0 && <ManyParts marked={marked} onDone={() => setMarked(new Map())} />}
    </div>
  );
}
