import { useState } from 'react';
import type { MappedWord } from '../../db/answers.ts';
import type { PackLoaded, PackLooked } from '../../electron/bridge/pack-calls.ts';
import { saySort } from '../edit/saySort.ts';
import { sayMany } from '../values/sayMany.ts';
import { type Decided, DisputeTable } from './DisputeTable.tsx';
import { LeftAlone, Looked } from './Looked.tsx';
import { PackWouldFollow } from './PackWouldFollow.tsx';
import { Remarks } from './RemarkTable.tsx';
import { saySigner } from './sayPack.ts';
import { WordTable } from './WordTable.tsx';
import { saidInAll } from './wordSaid.ts';

interface Props {
  /** Of what was handed over. */
  readonly token: string;
  readonly looked: Extract<PackLooked, { sound: true }>;
  readonly signerIsFine: boolean;
  /** Looks at it again with what somebody says of its words. */
  onLook(words: readonly MappedWord[]): void;
  onPutIn(holds: Decided): void;
  onLeave(): void;
}

/** What a pack without faults would come to, who signed it, and where the shop said otherwise: that is decided before it is put in. */
export function SoundPack({ token, looked: { pack, remarks, leftAlone, words }, signerIsFine, onLook, onPutIn, onLeave }: Props) {
  const { counts, replaced, signer, disputes } = pack;
  const [decided, setDecided] = useState<Decided>({});
  const [altered, setAltered] = useState(false);
  const open = disputes.filter(({ cell }) => decided[cell] === undefined).length;
  // What a pack says of itself is new with the pack.
  const change = pack.change.filter(({ of }) => of !== 'pack' || replaced !== null);
  return (
    <Looked
      title={
        <>
          {pack.title}, edition {pack.edition} {pack.invented && <span className="invented-tag">invented</span>}
        </>
      }
    >
      <p>
        {sayMany(counts.parts, 'part')} with {sayMany(counts.facts, 'fact')}, {sayMany(counts.models, 'model')},{' '}
        {sayMany(counts.sheets, 'sample sheet')}. {whatItDoes(pack)} {saySigner(signer, signerIsFine)} {sayMapped(pack)}
      </p>
      {words.length > 0 && <WordTable words={words} onAltered={setAltered} onLook={onLook} />}
      {disputes.length > 0 && pack.changed && <DisputeTable disputes={disputes} decided={decided} onDecide={setDecided} />}
      <div className="actions">
        {pack.changed && (
          <button type="button" className="button main" disabled={open > 0 || altered} onClick={() => onPutIn(decided)}>
            Put it in
          </button>
        )}
        <button type="button" className="button" onClick={onLeave}>
          Leave it
        </button>
        {altered && <span className="soft">You said something else of its words: look again before it is put in.</span>}
        {open > 0 && pack.changed && (
          <span className="soft">{sayMany(open, 'word is', 'words are')} still to be decided before it can be put in.</span>
        )}
      </div>
      {change.length > 0 && (
        <table className="page-table change-table" aria-label="What it adds, alters and takes away">
          <thead>
            <tr>
              <td />
              <th scope="col">New</th>
              <th scope="col">Altered</th>
              <th scope="col">Gone</th>
            </tr>
          </thead>
          <tbody>
            {change.map((one) => (
              <tr key={one.of}>
                <th scope="row">{saySort(one.of)}</th>
                {[one.added, one.altered, one.removed].map((many, column) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: three columns, always the same.
                  <td key={column} className={many === 0 ? 'soft' : undefined}>
                    {many}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {pack.changed && (
        <PackWouldFollow
          of={open > 0 || altered ? null : { bring: { token, signerIsFine, holds: { ...decided }, words: saidInAll(words) } }}
          summary="What would follow once it is put in"
        />
      )}
      <Remarks remarks={remarks} />
      <LeftAlone names={leftAlone} />
    </Looked>
  );
}

/** What is held is not what was brought: that is never left unsaid. */
const sayMapped = ({ mapped, signer }: PackLoaded): string =>
  mapped === 0
    ? ''
    : `It would be held as mapped: ${sayMany(mapped, 'word stands', 'words stand')} under ids of ours.${signer === null ? '' : ' What is signed is the text as it was brought, not that.'}`;

const whatItDoes = ({ changed, replaced, with: leaned }: PackLoaded): string => {
  if (!changed) return 'The atlas holds exactly this already, so there is nothing to put in.';
  const place = replaced === null ? 'The atlas does not hold it yet.' : `It takes the place of edition ${replaced}.`;
  const brought = leaned.map(({ id, edition }) => `${id}, edition ${edition}`).join(' and ');
  return leaned.length === 0 ? place : `${place} It leans on ${brought}, which ${leaned.length === 1 ? 'comes' : 'come'} with it.`;
};
