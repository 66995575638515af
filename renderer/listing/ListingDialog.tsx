import './listing.css';
import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Becomes, Listing } from '../../reasoner/index.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { desk } from '../bridge/desk.ts';
import { keys } from '../look/keys.ts';
import { at, landmark } from '../look/landmarks.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { presses } from '../look/presses.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { FindList } from './FindList.tsx';
import { asEdit, type Chosen, chosenAtFirst, takenOf, withMeaning, withTaken } from './listingChoice.ts';
import { MarkedText } from './MarkedText.tsx';

/**
 * The text of an offer, read for what it claims. Every find is confirmed, given another meaning or refused; what is taken goes on
 * the sheet in one step, as claims that are told. Nothing of it is evidence.
 */
export function ListingDialog({ onLeave }: { onLeave(): void }) {
  const { sheet } = useBench();
  const { edit } = useBenchActions();
  const [text, setText] = useState('');
  const [read, setRead] = useState<{ readonly text: string; readonly listing: Listing } | null>(null);
  const [chosen, setChosen] = useState<readonly Chosen[]>([]);
  const [keepWords, setKeepWords] = useState(true);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const box = useRef<HTMLDialogElement>(null);
  const field = useRef<HTMLTextAreaElement>(null);
  const id = useId();
  // The box opens before this runs, and gives the focus to its first control.
  useEffect(() => field.current?.focus(), []);
  useEffect(() => {
    if (read !== null)
      box.current?.querySelector<HTMLElement>([at('find', 'input'), at('find', 'select'), at('main action')].join(', '))?.focus();
  }, [read]);

  const readIt = async () => {
    const reply = await desk.ask('listing.read', { text });
    if (reply.ok) {
      setTrouble(null);
      setChosen(chosenAtFirst(reply.value));
      setRead({ text, listing: reply.value });
    } else setTrouble(reply.trouble);
  };
  const taken: readonly Becomes[] = read === null ? [] : takenOf(read.listing, chosen);
  const take = () => {
    if (read === null) return;
    edit(asEdit(sheet, taken, keepWords ? read.text : null));
    onLeave();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (!presses(event, keys.listing.lines.on)) return;
    event.preventDefault();
    if (read !== null) take();
    else if (text.trim() !== '') void readIt();
  };

  return (
    <ModalBox ref={box} className="listing-dialog" title="Read a listing" onKeyDown={onKeyDown} onLeave={onLeave}>
      {read === null ? (
        <>
          <label htmlFor={`${id}-text`} className="soft">
            Paste what the seller wrote. What it claims is picked out for you to confirm; a claim is tested against the unit and proves
            nothing.
          </label>
          <textarea
            id={`${id}-text`}
            ref={field}
            className="field"
            rows={9}
            maxLength={20_000}
            value={text}
            onChange={(event) => setText(event.target.value)}
          />
          {trouble !== null && <TroubleNote lead="Not read." trouble={trouble} />}
          <div className="actions">
            <button type="button" className="button" onClick={onLeave}>
              Leave
            </button>
            <button
              type="button"
              className="button main"
              {...landmark('main action')}
              disabled={text.trim() === ''}
              aria-keyshortcuts="Control+Enter"
              onClick={() => void readIt()}
            >
              Read it
            </button>
          </div>
        </>
      ) : (
        <>
          <div className="listing-read">
            <MarkedText text={read.text} finds={read.listing.finds} chosen={chosen} />
            <FindList
              finds={read.listing.finds}
              chosen={chosen}
              onTaken={(index, to) => setChosen((before) => withTaken(read.listing.finds, before, index, to))}
              onMeaning={(index, as) => setChosen((before) => withMeaning(read.listing.finds, before, index, as))}
            />
          </div>
          <div className="actions">
            <label className="tick">
              <input type="checkbox" checked={keepWords} onChange={(event) => setKeepWords(event.target.checked)} /> keep the words in the
              story
            </label>
            <button type="button" className="button" onClick={() => setRead(null)}>
              Back to the text
            </button>
            <button type="button" className="button" onClick={onLeave}>
              Leave
            </button>
            <button
              type="button"
              className="button main"
              {...landmark('main action')}
              disabled={taken.length === 0 && !keepWords}
              aria-keyshortcuts="Control+Enter"
              onClick={take}
            >
              Put {taken.length} on the sheet, as told
            </button>
          </div>
        </>
      )}
    </ModalBox>
  );
}
