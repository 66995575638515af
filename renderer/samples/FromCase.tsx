import './samples.css';
import '../edit/edit.css';
import { useState } from 'react';
import type { SlotTold } from '../../electron/bridge/verdict-calls.ts';
import type { PartId, Sheet, SheetId, SlotId } from '../../reasoner/index.ts';
import { PartName } from '../bridge/PartNames.tsx';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermText } from '../glossary/TermLink.tsx';
import { sayMany } from '../values/sayMany.ts';
import { KeepDialog } from './KeepDialog.tsx';
import { NewPartDialog } from './NewPartDialog.tsx';

/** What was done last from here, and of which part. */
type Did = { readonly what: 'kept' | 'made'; readonly part: PartId; readonly many: number };

/** From the case into the atlas: what was seen of a known part is kept as samples of it, and a part the atlas does not have becomes one of its parts. */
export function FromCase({ sheet, saved }: { readonly sheet: SheetId; readonly saved: unknown }) {
  const words = useWords();
  const opened = latest(useAsk('sheets.open', { id: sheet }, 0, saved));
  const answer = latest(useAsk('verdict.of', opened === null ? null : { sheet: opened.sheet }));
  const [open, setOpen] = useState<{ readonly how: 'keep' | 'make'; readonly slot: SlotId } | null>(null);
  const [did, setDid] = useState<Did | null>(null);
  if (opened === null) return null;
  const slots = words.slots.filter(({ id }) => evidenceOf(opened.sheet, id).length > 0);
  if (slots.length === 0) return null;
  const of = (slot: SlotId) => (answer?.kind === 'verdict' ? (answer.slots.find((one) => one.slot === slot) ?? null) : null);
  const shared = { sheet: opened.sheet, version: opened.version, onLeave: () => setOpen(null) };
  const done = (next: Did) => {
    setOpen(null);
    setDid(next);
  };
  return (
    <section className="case-block from-case no-print" aria-labelledby="from-case-head">
      <div className="block-head">
        <h2 id="from-case-head" className="head">
          Into the atlas
        </h2>
      </div>
      <p className="small soft">
        What was seen and measured of a part that is known can be kept as samples of it; a part the atlas does not have can be put into it.
        What was only told goes no further.
      </p>
      <p role="status" className="small">
        {did !== null && (
          <>
            {did.what === 'kept' ? `Kept: ${sayMany(did.many, 'sample')} of ` : 'Now a part of the atlas: '}
            <PartName part={did.part} />.
          </>
        )}
      </p>
      <ul className="from-case-slots">
        {slots.map((slot) => (
          <li key={slot.id}>
            <span>
              <TermText text={slot.name} />
              <span className="small soft samples-behind">
                {sayMany(evidenceOf(opened.sheet, slot.id).length, 'entry', 'entries')}
                {answer !== null && (
                  <>
                    ; <Left answer={of(slot.id)} />
                  </>
                )}
              </span>
            </span>
            <span className="from-case-actions">
              <button
                type="button"
                className="button"
                aria-label={`Keep as samples: ${slot.name}`}
                onClick={() => setOpen({ how: 'keep', slot: slot.id })}
              >
                Keep as samples…
              </button>
              <button
                type="button"
                className="button"
                aria-label={`Make it a part of the atlas: ${slot.name}`}
                onClick={() => setOpen({ how: 'make', slot: slot.id })}
              >
                Make it a part…
              </button>
            </span>
          </li>
        ))}
      </ul>
      {open?.how === 'keep' && (
        <KeepDialog
          {...shared}
          slot={open.slot}
          entries={evidenceOf(opened.sheet, open.slot)}
          settled={settledOn(of(open.slot))}
          onKept={(part, many) => done({ what: 'kept', part, many })}
        />
      )}
      {open?.how === 'make' && <NewPartDialog {...shared} slot={open.slot} onMade={(part) => done({ what: 'made', part, many: 1 })} />}
    </section>
  );
}

const evidenceOf = ({ observations }: Sheet, slot: SlotId) => observations.filter((one) => one.slot === slot && one.sure.kind !== 'told');

/** The one listed part that is left, where nothing speaks against the slot as a whole. */
const settledOn = (answer: SlotTold | null): PartId | null => (answer === null || answer.doubtful ? null : answer.only);

function Left({ answer }: { readonly answer: SlotTold | null }) {
  if (answer === null) return 'nothing is concluded while entries contradict each other';
  const { left, only } = answer;
  if (left === 0) return answer.listed === 0 ? 'the atlas lists none' : 'no listed part is left';
  if (only === null) return `${left} listed parts are left`;
  return (
    <>
      one listed part is left: <PartName part={only} />
      {answer.doubtful && ', doubtful'}
    </>
  );
}
