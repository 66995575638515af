import { useId, useRef, useState } from 'react';
import type { MakerId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { ListingDialog } from '../listing/ListingDialog.tsx';
import { asId } from '../route/asId.ts';
import { withClaim, withClaimedMaker, withStory, withTitle } from './sheetEdits.ts';
import { useBench } from './UnitContext.ts';

/** What the unit is called in the shop, what it is offered as, and its story. */
export function SheetHead() {
  const words = useWords();
  const { sheet, edit } = useBench();
  const id = useId();
  const [reading, setReading] = useState(false);
  const listing = useRef<HTMLButtonElement>(null);
  return (
    <header className="sheet-head">
      <h2 className="unseen">Sheet</h2>
      <input
        className="sheet-title"
        aria-label="Title of the sheet"
        placeholder="Untitled unit"
        value={sheet.title}
        maxLength={300}
        onChange={(event) => edit(withTitle(event.target.value), 'title')}
      />
      <div className="claim-entry">
        <label htmlFor={`${id}-claim`} className="head">
          Offered as
        </label>
        <select
          className="field"
          aria-label="Maker it is offered under"
          value={sheet.claimedMaker ?? ''}
          onChange={(event) => edit(withClaimedMaker(event.target.value === '' ? null : asId<MakerId>(event.target.value)))}
        >
          <option value="">no maker said</option>
          {words.vocabulary.makers.map((maker) => (
            <option key={maker.id} value={maker.id}>
              {maker.name}
            </option>
          ))}
        </select>
        <input
          id={`${id}-claim`}
          className="field"
          placeholder="name, as written"
          value={sheet.claimed ?? ''}
          maxLength={300}
          spellCheck={false}
          onChange={(event) => edit(withClaim(event.target.value), 'claim')}
        />
      </div>
      <button ref={listing} type="button" className="button plain read-listing no-print" onClick={() => setReading(true)}>
        Read a listing…
      </button>
      {reading && (
        <ListingDialog
          onLeave={() => {
            setReading(false);
            // A modal window gives the focus back as it closes; ours comes after that.
            requestAnimationFrame(() => listing.current?.focus());
          }}
        />
      )}
      <details className="story" open={sheet.story !== '' ? undefined : false}>
        <summary>
          Story{sheet.kind === 'planned' && <span className="tag">planned build</span>}
          {sheet.story !== '' && <span className="story-line"> {sheet.story}</span>}
        </summary>
        <textarea
          className="field"
          aria-label="Story of the unit"
          rows={4}
          maxLength={20_000}
          placeholder="Where it came from, who said what about it."
          value={sheet.story}
          onChange={(event) => edit(withStory(event.target.value), 'story')}
        />
      </details>
    </header>
  );
}
