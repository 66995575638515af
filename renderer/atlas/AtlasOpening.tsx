import { useWords } from '../bridge/WordsContext.ts';
import { hrefOf } from '../route/route.ts';

const packsHref = hrefOf({ screen: 'packs' });
const historyHref = hrefOf({ screen: 'history', of: null });

/** What the atlas holds, before anything is picked. */
export function AtlasOpening() {
  const words = useWords();
  const { counts, packs, edition, slots, features, joints } = words.vocabulary;
  return (
    <>
      <h2 className="page-title">The atlas</h2>
      <dl className="facts-line">
        <Count name="makers" of={counts.makers} />
        <Count name="families" of={counts.families} />
        <Count name="models" of={counts.models} />
        <Count name="parts" of={counts.parts} />
        <Count name="slots" of={slots.length} />
        <Count name="features" of={features.length} />
        <Count name="joints" of={joints.length} />
      </dl>
      {counts.models === 0 && counts.parts === 0 ? (
        <p className="soft">
          No maker, model or part is in it yet: so far it knows the words of the trade alone. <a href={packsHref}>Bring in a pack</a>{' '}
          somebody made, or put in what your shop knows.
        </p>
      ) : (
        <p className="soft">Pick a family on the left, or type a name or a part number.</p>
      )}
      <p className="no-print">
        <a className="button" href={hrefOf({ screen: 'edit', place: { at: 'new', list: 'parts', like: null } })}>
          Add a part
        </a>{' '}
        <a className="button" href={hrefOf({ screen: 'edit', place: { at: 'lists' } })}>
          Edit the atlas
        </a>
      </p>
      <h3 className="head">Packs</h3>
      <ul>
        {packs.map((pack) => (
          <li key={pack.id}>
            {pack.title}, edition {pack.edition}
            {pack.invented && (
              <span className="invented-tag">
                {pack.parts ? 'invented: no real maker, name or figure is in it' : 'its limits, hours and figures are invented'}
              </span>
            )}
          </li>
        ))}
      </ul>
      <p>
        <a href={packsHref}>Put packs in, take them out, write them out</a>
      </p>
      <p>
        <a href={historyHref}>Every change of the atlas, and how it stood on a day</a>
      </p>
      <p>
        <a href={hrefOf({ screen: 'table' })}>Bring a spreadsheet</a>, or write the atlas out as one
      </p>
      <p className="small soft">State of the data: {edition}</p>
    </>
  );
}

function Count({ name, of }: { readonly name: string; readonly of: number }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{of}</dd>
    </div>
  );
}
