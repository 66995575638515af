import type { KeyboardEvent } from 'react';
import type { Plan, SlotId } from '../../reasoner/index.ts';
import { onlyMaker } from '../../reasoner/plain/only-maker.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { useBench } from '../bench/BenchContext.ts';
import { PartText } from '../bridge/PartText.tsx';
import { useWords } from '../bridge/WordsContext.ts';

interface Props {
  readonly plan: Plan | null;
  readonly open: SlotId | null;
  onOpen(slot: SlotId): void;
}

/** The slots in the atlas's order with what is chosen for each and what is to be done with that part (F4). Arrows walk, Enter opens. */
export function ChosenSlots({ plan, open, onOpen }: Props) {
  const words = useWords();
  const { sheet } = useBench();
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every slot is a button of its own.
    <div className="chosen-slots" onKeyDown={walkButtons}>
      <ul aria-label="Slots">
        {words.slots.map(({ id, name, group }) => {
          const part = sheet.chosen[id];
          const of = plan?.slots.find((each) => each.slot === id);
          return (
            <li key={id}>
              <button type="button" className="slot-line" aria-pressed={id === open} onClick={() => onOpen(id)}>
                <span className="slot-line-name">{name}</span>
                <span className={part === undefined ? 'slot-line-part faint' : 'slot-line-part'}>
                  <span className="slot-line-text">
                    {part !== undefined ? (
                      <PartText part={part} />
                    ) : group === 'plate' ? (
                      onlyMaker
                    ) : sheet.absent.includes(id) ? (
                      'none'
                    ) : (
                      'not chosen'
                    )}
                  </span>
                  {of?.machined && <span className="tag">machined</span>}
                  {of?.stranger ? (
                    <span className="tag">not as listed</span>
                  ) : (
                    part !== undefined && sheet.observations.some((one) => one.slot === id) && <span className="tag">in hand</span>
                  )}
                </span>
                {part === undefined || of?.mark == null ? <span /> : <FitMark verdict={of.mark} />}
              </button>
            </li>
          );
        })}
      </ul>
    </div>
  );
}

/** Up and down move between the buttons of a list; Home and End go to its ends. */
export function walkButtons(event: KeyboardEvent<HTMLElement>): void {
  const stops = [...event.currentTarget.querySelectorAll<HTMLElement>('li > button, summary')];
  const at = stops.indexOf(event.target as HTMLElement);
  if (at < 0) return;
  const next =
    event.key === 'ArrowDown'
      ? stops[at + 1]
      : event.key === 'ArrowUp'
        ? stops[at - 1]
        : event.key === 'Home'
          ? stops[0]
          : event.key === 'End'
            ? stops.at(-1)
            : undefined;
  if (next === undefined) return;
  event.preventDefault();
  next.focus();
}
