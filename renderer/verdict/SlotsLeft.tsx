import { type ReactNode, useMemo, useState } from 'react';
import type { PartsOfSlot, PartTold, SlotTold, VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Sheet, SlotId } from '../../reasoner/index.ts';
import { listsNone } from '../../reasoner/plain/lists-none.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { sayWhole } from '../values/figures.ts';
import { inOneLine, PagedParts, PartLink, usePaging } from './PagedParts.tsx';

/** Slot by slot: which listed parts are left, and what removed the others. */
export function SlotsLeft({ verdict, sheet }: { readonly verdict: VerdictAtOnce; readonly sheet: Sheet }) {
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  return (
    <section className="block" id="verdict-parts" tabIndex={-1} aria-labelledby="verdict-parts-title">
      <h2 id="verdict-parts-title" className="head">
        Parts left in each slot
      </h2>
      <p className="small soft">Beside the listed parts an unlisted one is always possible.</p>
      {verdict.slots.map((slot) => (
        <SlotLeft key={slot.slot} answer={slot} sheet={matters} />
      ))}
    </section>
  );
}

function SlotLeft({ answer, sheet }: { readonly answer: SlotTold; readonly sheet: Sheet }) {
  const words = useWords();
  const [open, setOpen] = useState(false);
  const slotName = words.slotName(answer.slot);
  return (
    <details className="slot-left" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span>{slotName}</span>
        <span>
          {answer.absent ? (
            'not with the unit'
          ) : listsNone(answer) ? (
            'none listed'
          ) : (
            <>
              <b>{sayWhole(answer.left)}</b> of {sayWhole(answer.listed)}
              {answer.numberNotListed !== null && ' · number not listed'}
            </>
          )}
          {answer.doubtful && (
            <>
              {' · '}
              <span className="status is-open">doubtful</span>
            </>
          )}
        </span>
      </summary>
      {open && (
        <dl>
          <dt>Left</dt>
          <dd>
            <PartsOf sheet={sheet} slot={answer.slot} of="left" count={answer.left} what={`parts left: ${slotName}`} draw={inOneLine} />
            {answer.numberNotListed !== null && (
              <span>a plate of {answer.numberNotListed.map(words.makerName).join(' or ')}, its number not listed</span>
            )}
          </dd>
          {answer.removedByObservations > 0 && (
            <>
              <dt>Ruled out by entries</dt>
              <dd>{sayWhole(answer.removedByObservations)}</dd>
            </>
          )}
          {answer.removedByJoints > 0 && (
            <>
              <dt>Ruled out by the parts beside it</dt>
              <dd>
                <PartsOf
                  sheet={sheet}
                  slot={answer.slot}
                  of="beside"
                  count={answer.removedByJoints}
                  what={`parts ruled out: ${slotName}`}
                  draw={lineByLine(({ because }) =>
                    because === null
                      ? null
                      : because.kind === 'together'
                        ? '(not by one part alone, but by all of them together)'
                        : `(${words.jointName(because.joint)}: no ${words.slotName(because.other)} that is left fits it)`,
                  )}
                />
              </dd>
            </>
          )}
          {answer.machined > 0 && (
            <>
              <dt>Only if machined</dt>
              <dd>
                <PartsOf
                  sheet={sheet}
                  slot={answer.slot}
                  of="machined"
                  count={answer.machined}
                  what={`parts only if machined: ${slotName}`}
                  draw={lineByLine(() => null)}
                />
              </dd>
            </>
          )}
          {answer.silent > 0 && (
            <>
              <dt>Left, though the atlas does not say</dt>
              <dd>
                <PartsOf
                  sheet={sheet}
                  slot={answer.slot}
                  of="silent"
                  count={answer.silent}
                  what={`parts the atlas does not say enough of: ${slotName}`}
                  draw={lineByLine(({ features }) => (
                    <TermsText text={`(${features.map((feature) => words.featureName(feature)).join(', ')})`} />
                  ))}
                />
              </dd>
            </>
          )}
        </dl>
      )}
    </details>
  );
}

interface PartsOfProps {
  readonly sheet: Sheet;
  readonly slot: SlotId;
  readonly of: PartsOfSlot;
  readonly count: number;
  readonly what: string;
  draw(rows: readonly PartTold[]): ReactNode;
}

function PartsOf({ sheet, slot, of, ...rest }: PartsOfProps) {
  const list = { sheet, slot, of };
  const paging = usePaging(list);
  const asked = useAsk('verdict.parts', rest.count === 0 ? null : { ...list, ...paging.rows });
  return <PagedParts paging={paging} asked={asked} {...rest} />;
}

const lineByLine =
  (why: (row: PartTold) => ReactNode) =>
  (rows: readonly PartTold[]): ReactNode =>
    rows.map((row) => (
      <span key={row.part} className="fallen">
        <PartLink {...row} /> <span className="soft">{why(row)}</span>
      </span>
    ));
