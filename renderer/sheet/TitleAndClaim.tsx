import { useId } from 'react';
import type { MakerId } from '../../reasoner/index.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { withClaim, withClaimedMaker, withTitle } from '../bench/sheetEdits.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { keys } from '../look/keys.ts';
import { at, landmark } from '../look/landmarks.ts';
import { presses } from '../look/presses.ts';
import { asId } from '../route/asId.ts';

interface Props {
  readonly title: { readonly label: string; readonly empty: string };
  /** Before the name it goes under, and what its maker's list is called. */
  readonly claim: { readonly label: string; readonly maker: string };
}

/** What the shop calls the sheet, and the name the unit goes under with its maker. */
export function TitleAndClaim({ title, claim }: Props) {
  const words = useWords();
  const { sheet } = useBench();
  const { edit } = useBenchActions();
  const id = useId();
  return (
    <>
      <input
        className="sheet-title"
        aria-label={title.label}
        placeholder={title.empty}
        value={sheet.title}
        maxLength={300}
        onChange={(event) => edit(withTitle(event.target.value), 'title')}
      />
      <div className="claim-entry">
        <label htmlFor={id} className="head">
          {claim.label}
        </label>
        <select
          className="field"
          aria-label={claim.maker}
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
          id={id}
          className="field"
          placeholder="name, as written"
          {...landmark('claim')}
          value={sheet.claimed ?? ''}
          maxLength={300}
          spellCheck={false}
          onChange={(event) => edit(withClaim(event.target.value), 'claim')}
          onKeyDown={(event) => {
            if (presses(event, keys.unit.lines.on)) document.querySelector<HTMLElement>(at('add a feature', 'input'))?.focus();
          }}
        />
      </div>
    </>
  );
}
