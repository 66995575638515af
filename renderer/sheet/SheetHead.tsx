import { useRef, useState } from 'react';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { withSerial, withStory } from '../bench/sheetEdits.ts';
import { CaseLink } from '../cases/CaseLink.tsx';
import { HereBefore } from '../cases/HereBefore.tsx';
import { ListingDialog } from '../listing/ListingDialog.tsx';
import { TitleAndClaim } from './TitleAndClaim.tsx';
import { UnitBar } from './UnitBar.tsx';

/** The case and what is done with it, what the unit is called in the shop, what it is offered as, and its story. */
export function SheetHead() {
  const { sheet } = useBench();
  const { edit } = useBenchActions();
  const [reading, setReading] = useState(false);
  const listing = useRef<HTMLButtonElement>(null);
  return (
    <header className="sheet-head">
      <h2 className="unseen">Sheet</h2>
      <div className="sheet-bar">
        <CaseLink />
        <UnitBar whole />
      </div>
      <TitleAndClaim
        title={{ label: 'Title of the sheet', empty: 'Untitled unit' }}
        claim={{ label: 'Offered as', maker: 'Maker it is offered under' }}
      />
      <div className="serial-entry">
        <label>
          <span className="head">Serial number</span>
          <input
            className="field"
            placeholder="as stamped on the unit"
            value={sheet.serial ?? ''}
            maxLength={200}
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => edit(withSerial(event.target.value), 'serial')}
          />
        </label>
        <button ref={listing} type="button" className="button plain read-listing no-print" onClick={() => setReading(true)}>
          Read a listing…
        </button>
      </div>
      <HereBefore sheet={sheet} />
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
          Story
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
