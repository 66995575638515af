import { useWords } from '../bridge/WordsContext.ts';

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
      <p className="soft">Pick a family on the left, or type a name or a part number.</p>
      <h3 className="head">Packs</h3>
      <ul>
        {packs.map((pack) => (
          <li key={pack.id}>
            {pack.title}, edition {pack.edition}
            {pack.invented && <span className="tag">invented: no real maker, name or figure is in it</span>}
          </li>
        ))}
      </ul>
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
