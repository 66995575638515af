import './sheet.css';
import { at } from '../look/landmarks.ts';
import './entry.css';
import { type KeyboardEvent, useRef } from 'react';
import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { ObservationId } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { usePreference } from '../look/preference.ts';
import { useLengthUnit } from '../look/useLengthUnit.ts';
import { OpenUnits } from '../open/OpenUnits.tsx';
import { lengthUnits } from '../values/readSeen.ts';
import { SheetHead } from './SheetHead.tsx';
import { SlotCard } from './SlotCard.tsx';

const targetSizes = ['usual', 'large'] as const;

/** The unit as it is entered: what it is offered as, then slot by slot from the compressor side to the turbine side. */
export function SheetColumn({
  verdict,
  disputed,
}: {
  readonly verdict: VerdictAtOnce | null;
  readonly disputed: ReadonlySet<ObservationId>;
}) {
  const words = useWords();
  const { sheet } = useBench();
  const [unit, setUnit] = useLengthUnit();
  const [targets, setTargets] = usePreference('targets', targetSizes, 'usual');
  const large = targets === 'large';
  const column = useRef<HTMLDivElement>(null);

  /** Arrows walk over every place that can take the focus: from slot to slot in the boxes, entry to entry in the lists. */
  const walk = (from: Element, direction: 1 | -1, stops: string) => {
    const all = [...(column.current?.querySelectorAll<HTMLElement>(stops) ?? [])];
    all[all.indexOf(from as HTMLElement) + direction]?.focus();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (!(event.target instanceof HTMLElement) || event.target.dataset.entry === undefined) return;
    const direction = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : null;
    if (direction === null) return;
    event.preventDefault();
    walk(event.target, direction, `[data-entry], ${at('add a feature', 'input')}`);
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every stop is a control of its own.
    <div className={large ? 'sheet-column is-large' : 'sheet-column'} ref={column} onKeyDown={onKeyDown}>
      <div>
        <OpenUnits />
        <SheetHead />
      </div>
      <div className="slots">
        {words.slots.map((slot) => (
          <SlotCard
            key={slot.id}
            slot={slot}
            observations={sheet.observations.filter((one) => one.slot === slot.id)}
            unseen={sheet.unseen?.filter((one) => one.slot === slot.id) ?? []}
            absent={sheet.absent.includes(slot.id)}
            answer={verdict?.slots.find((one) => one.slot === slot.id) ?? null}
            disputed={disputed}
            unit={unit}
            pad={large}
            onWalk={(from, direction) => walk(from, direction, at('add a feature', 'input'))}
          />
        ))}
      </div>
      <footer className="sheet-foot no-print">
        <label>
          Lengths in{' '}
          <select className="field" value={unit} onChange={(event) => setUnit(event.target.value === 'inch' ? 'inch' : 'mm')}>
            {lengthUnits.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
        </label>
        <label className="tick">
          <input type="checkbox" checked={large} onChange={(event) => setTargets(event.target.checked ? 'large' : 'usual')} /> Large targets
        </label>
        <p className="keys">
          <kbd>↑</kbd> <kbd>↓</kbd> slots · type a feature · <kbd>Alt</kbd> <kbd>↓</kbd> shows all · <kbd>Enter</kbd> adds
        </p>
      </footer>
    </div>
  );
}
