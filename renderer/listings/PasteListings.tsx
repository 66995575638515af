import { useState } from 'react';

/** What may be handed in, and a place for cells or text that was copied. */
export function PasteListings({ onPasted }: { onPasted(text: string): void }) {
  const [pasted, setPasted] = useState('');
  return (
    <div className="listings-words">
      <p>
        Hand in a table of listings, one row each: a title, a description, a price, a link, in any order and under any headings (.csv, .txt,
        .xlsx). Or copy the cells, or the lines, and paste them here.
      </p>
      <textarea
        className="field"
        rows={5}
        spellCheck={false}
        aria-label="Listings to be read"
        value={pasted}
        onChange={(event) => setPasted(event.target.value)}
        onPaste={(event) => {
          const text = event.clipboardData.getData('text/plain');
          if (pasted !== '' || text.trim() === '') return;
          event.preventDefault();
          onPasted(text);
        }}
      />
      {pasted.trim() !== '' && (
        <p>
          <button type="button" className="button main" onClick={() => onPasted(pasted)}>
            Read these listings
          </button>
        </p>
      )}
      <p>
        Each is read for what it claims, and the list begins with the claims that fail most plainly: names nobody makes, then those the
        seller’s own words speak against. What a seller says is told: it proves nothing and rules nothing out. Nothing is saved before you
        open a row and save it.
      </p>
      <p className="small soft">
        Sheet files (.json), and tables of sheets with the columns unit, title, maker, claimed, slot, feature, value, how, u, note, are
        judged by what was seen. A row that cannot be read is listed with what is wrong in it, and stops no other.
      </p>
    </div>
  );
}
