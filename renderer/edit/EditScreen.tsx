import './edit.css';
import { withArticle } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { landmark } from '../look/landmarks.ts';
import { editedLists } from '../route/editedLists.ts';
import { type EditPlace, hrefOf } from '../route/route.ts';
import { EntryPage } from './EntryPage.tsx';
import { listWords } from './fieldWords.ts';
import { ListPage } from './ListPage.tsx';
import { MakingContext, useMaking } from './making.ts';

/** The atlas edited in place: its lists, one of them, or one entry in its form. */
export function EditScreen({ place }: { readonly place: EditPlace }) {
  return (
    <main className="edit-screen" {...landmark('own undo')}>
      <MakingContext value={useMaking()}>
        <Place place={place} />
      </MakingContext>
    </main>
  );
}

function Place({ place }: { readonly place: EditPlace }) {
  switch (place.at) {
    case 'lists':
      return <Lists />;
    case 'list':
      return <ListPage key={place.list} list={place.list} />;
    case 'new':
      return <EntryPage key={`${place.list} new ${place.like}`} list={place.list} id={null} like={place.like} />;
    case 'entry':
      return <EntryPage key={`${place.list} ${place.id}`} list={place.list} id={place.id} like={null} />;
  }
}

function Lists() {
  const { packs } = useWords().vocabulary;
  return (
    <div className="edit-lists">
      <h1 className="page-title">Edit the atlas</h1>
      <p className="soft">
        What you change here is the shop’s own word. Where a pack says otherwise, the pack stays as it is and the shop’s word goes before
        it.
      </p>
      <div className="edit-lists-columns">
        {[
          { head: 'What the shop meets', lists: editedLists.slice(0, 7) },
          { head: 'The vocabulary', lists: editedLists.slice(7) },
        ].map(({ head, lists }) => (
          <section key={head}>
            <h2 className="head">{head}</h2>
            <ul>
              {lists.map((list) => (
                <li key={list}>
                  <a href={hrefOf({ screen: 'edit', place: { at: 'list', list } })}>{listWords[list]?.name}</a>{' '}
                  <a className="small" href={hrefOf({ screen: 'edit', place: { at: 'new', list, like: null } })}>
                    add<span className="unseen"> {withArticle(listWords[list]?.one ?? list)}</span>
                  </a>
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
      <p>
        <a href={hrefOf({ screen: 'history', of: null })}>What was changed so far</a>
      </p>
      <p className="small soft">Packs in this atlas: {packs.map(({ title }) => title).join(', ') || 'none'}.</p>
    </div>
  );
}
