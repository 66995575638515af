import type { FamilyId, MakerId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { type AtlasPlace, hrefOf } from '../route/route.ts';
import { walkLinks } from './walkLinks.ts';

/** Makers with their families, and each family's models. The branch of the page that is open is unfolded. */
export function AtlasIndex({ place }: { readonly place: AtlasPlace | null }) {
  const words = useWords();
  const { makers, families, models } = words.vocabulary;
  const openFamily =
    place?.kind === 'family' ? place.id : place?.kind === 'model' ? models.find((model) => model.id === place.id)?.family : undefined;
  const groups: readonly (MakerId | null)[] = [...makers.map((maker) => maker.id), null];
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line is a link or a summary.
    <div className="atlas-index" onKeyDown={walkLinks}>
      {groups.map((maker) => {
        const own = families.filter((family) => family.maker === maker);
        if (own.length === 0 && maker === null) return null;
        return (
          <section key={maker ?? 'none'} aria-label={words.makerName(maker)}>
            <h2 className="head">
              {maker === null ? (
                'No maker’s name'
              ) : (
                <a href={hrefOf({ screen: 'atlas', page: { kind: 'maker', id: maker } })} aria-current={current(place, 'maker', maker)}>
                  {words.makerName(maker)}
                </a>
              )}
            </h2>
            {own.map((family) => (
              <FamilyBranch key={family.id} id={family.id} name={family.name} open={family.id === openFamily} place={place} />
            ))}
          </section>
        );
      })}
    </div>
  );
}

function FamilyBranch(props: { readonly id: FamilyId; readonly name: string; readonly open: boolean; readonly place: AtlasPlace | null }) {
  const words = useWords();
  const models = words.vocabulary.models.filter((model) => model.family === props.id);
  return (
    <details open={props.open || undefined}>
      <summary>
        <a
          href={hrefOf({ screen: 'atlas', page: { kind: 'family', id: props.id, beside: null } })}
          aria-current={current(props.place, 'family', props.id)}
        >
          {props.name}
        </a>
        <span className="faint small"> {models.length}</span>
      </summary>
      <ul>
        {models.map((model) => (
          <li key={model.id}>
            <a
              href={hrefOf({ screen: 'atlas', page: { kind: 'model', id: model.id } })}
              aria-current={current(props.place, 'model', model.id)}
            >
              {model.name}
            </a>
          </li>
        ))}
      </ul>
    </details>
  );
}

const current = (place: AtlasPlace | null, kind: AtlasPlace['kind'], id: string) =>
  place !== null && place.kind === kind && place.id === id ? 'page' : undefined;
