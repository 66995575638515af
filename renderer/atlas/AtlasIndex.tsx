import { useId, useState } from 'react';
import type { FamilyId, MakerId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { landmark } from '../look/landmarks.ts';
import { Pager } from '../look/Pager.tsx';
import { usePlaceIn } from '../look/usePlaceIn.ts';
import { walkLinks } from '../look/walkLinks.ts';
import { type AtlasPlace, hrefOf } from '../route/route.ts';

/** So many families of a maker are shown at once. */
const aPage = 60;

/** Makers with their families, and each family's models. The branch of the page that is open is unfolded. */
export function AtlasIndex({ place }: { readonly place: AtlasPlace | null }) {
  const words = useWords();
  const { makers, families, models } = words.vocabulary;
  const openFamily =
    place?.kind === 'family' ? place.id : place?.kind === 'model' ? models.find((model) => model.id === place.id)?.family : undefined;
  const groups: readonly (MakerId | null)[] = [...makers.map((maker) => maker.id), null];
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line is a link or a summary.
    <div className="atlas-index" {...landmark('list')} onKeyDown={walkLinks}>
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
            <Families own={own} of={words.makerName(maker)} openFamily={openFamily} place={place} />
          </section>
        );
      })}
    </div>
  );
}

interface FamiliesProps {
  readonly own: readonly { readonly id: FamilyId; readonly name: string }[];
  /** Whose, in words. */
  readonly of: string;
  readonly openFamily: FamilyId | undefined;
  readonly place: AtlasPlace | null;
}

/** The families of a maker, of many a page at a time: that of the page that is open first. */
function Families({ own, of, openFamily, place }: FamiliesProps) {
  const at = own.findIndex(({ id }) => id === openFamily);
  const [from, setFrom] = usePlaceIn({ of, openFamily: at < 0 ? null : openFamily }, Math.max(0, Math.floor(at / aPage)) * aPage);
  return (
    <>
      {own.slice(from, from + aPage).map((family) => (
        <FamilyBranch key={family.id} id={family.id} name={family.name} open={family.id === openFamily} place={place} />
      ))}
      <Pager what={`families: ${of}`} from={from} size={aPage} count={own.length} onFrom={setFrom} />
    </>
  );
}

/** A family with its models folded beneath it. Right and left arrows on the family unfold and fold, as the button does. */
function FamilyBranch(props: { readonly id: FamilyId; readonly name: string; readonly open: boolean; readonly place: AtlasPlace | null }) {
  const words = useWords();
  const [folded, setFolded] = useState<boolean | null>(null);
  const list = useId();
  const models = words.modelsOf(props.id);
  // Until someone folds or unfolds it, the branch follows the page that is open.
  const open = folded === null ? props.open : !folded;
  return (
    <div className="branch">
      <button
        type="button"
        className="fold"
        aria-expanded={open}
        aria-controls={open ? list : undefined}
        aria-label={`models of ${props.name}`}
        onClick={() => setFolded(open)}
      >
        <span aria-hidden="true">{open ? '▾' : '▸'}</span>
      </button>
      <a
        href={hrefOf({ screen: 'atlas', page: { kind: 'family', id: props.id, beside: null } })}
        aria-current={current(props.place, 'family', props.id)}
        onKeyDown={(event) => {
          if (event.key !== 'ArrowRight' && event.key !== 'ArrowLeft') return;
          event.preventDefault();
          setFolded(event.key === 'ArrowLeft');
        }}
      >
        {props.name}
      </a>
      <span className="faint small"> {models.length}</span>
      {open && (
        <ul id={list}>
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
      )}
    </div>
  );
}

const current = (place: AtlasPlace | null, kind: AtlasPlace['kind'], id: string) =>
  place !== null && place.kind === kind && place.id === id ? 'page' : undefined;
