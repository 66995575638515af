import type { NeededBy } from '../../db/answers.ts';
import type { PackHeld } from '../../electron/bridge/pack-calls.ts';
import { withArticle } from '../../reasoner/plain/text.ts';
import { sayMany } from '../values/sayMany.ts';
import { PackWouldFollow } from './PackWouldFollow.tsx';
import { sayCounts, sayThing } from './sayPack.ts';

interface Props {
  readonly pack: PackHeld;
  readonly titles: ReadonlyMap<string, string>;
  readonly working: boolean;
  onTakeOut(): void;
  onWrite(): void;
  /** Null where it cannot be signed here: the shop has no key, or it is signed already. */
  readonly onSign: (() => void) | null;
}

/** A pack of the atlas: what it is, what goes with it, and what keeps it in. */
export function HeldPackTag({ pack, titles, working, onTakeOut, onWrite, onSign }: Props) {
  const { id, title, edition, invented, own, note, leansOn, licence, by, counts, neededBy, signer, mapped, signedAsBrought } = pack;
  const of = sayCounts(counts);
  return (
    <article className={invented ? 'pack-tag is-invented' : 'pack-tag'} aria-label={title}>
      <div>
        <h3>
          {title} {invented && <span className="invented-tag">invented</span>}
        </h3>
        <p className="small soft">
          edition {edition} · {id}
          {leansOn.length > 0 && ` · leans on ${leansOn.map((one) => titles.get(one) ?? one).join(', ')}`}
        </p>
        {(licence !== null || by !== null || signer !== null) && (
          <p className="small soft">
            {[
              by === null ? null : `answered for by ${by}`,
              licence === null ? null : `licence ${licence}`,
              signer === null ? null : `signed by ${signer.name}${signedAsBrought ? ' as it was brought' : ''}`,
            ]
              .filter((said) => said !== null)
              .join(' · ')}
            {signer !== null && (
              <>
                {' '}
                <code>{signer.fingerprint.replaceAll('-', ' ')}</code>
              </>
            )}
          </p>
        )}
        {mapped > 0 && (
          <p className="small soft">
            held as mapped: {sayMany(mapped, 'word of it stands', 'words of it stand')} under ids of ours, so that it is no longer word for
            word what was brought
          </p>
        )}
        {note !== '' && <p>{note}</p>}
        {own ? (
          <p className="pack-goes">
            It holds {of === '' ? 'nothing yet' : of}: what this shop put in itself. It is not taken out as a whole: each change of it is
            undone in the history.
          </p>
        ) : neededBy.length === 0 ? (
          <>
            <p className="pack-goes">
              {of === '' ? 'Nothing goes with it.' : `Taken out, it takes with it ${of}.`} Sheets and cases of the shop stay.
            </p>
            <PackWouldFollow of={{ takeOut: id }} summary="What would follow once it is taken out" />
          </>
        ) : (
          <>
            <p className="pack-goes">It holds {of === '' ? 'nothing of its own' : of}. It cannot be taken out as long as it is needed:</p>
            <ul className="pack-needs">
              {neededBy.map((need) => (
                <li key={need.pack}>
                  <Need need={need} />
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
      <div className="pack-acts no-print">
        <button type="button" className="button" disabled={working} aria-label={`Write out ${title}`} onClick={onWrite}>
          Write out
        </button>
        {onSign !== null && (
          <button type="button" className="button" disabled={working} aria-label={`Sign ${title}`} onClick={onSign}>
            Sign
          </button>
        )}
        {neededBy.length === 0 && !own && (
          <button type="button" className="button danger" disabled={working} aria-label={`Take out ${title}`} onClick={onTakeOut}>
            Take out
          </button>
        )}
      </div>
    </article>
  );
}

function Need({ need: { title, leans, places } }: { readonly need: NeededBy }) {
  const list = (
    <ul>
      {places.map(({ from, to, many, names }) => (
        <li key={`${from} ${to}`}>
          {many} {sayThing(from, many)} that {many === 1 ? 'names' : 'name'} {withArticle(to)} of it: {names.join(', ')}
          {many > names.length && ` and ${many - names.length} more`}
        </li>
      ))}
    </ul>
  );
  if (!leans)
    return (
      <>
        {title} speaks of what only it has:{list}
      </>
    );
  if (places.length === 0) return <>{title} leans on it.</>;
  return (
    <details>
      <summary>{title} leans on it</summary>
      {list}
    </details>
  );
}
