import { useId, useRef, useState } from 'react';
import type { Feature, Observation, ObservationId, Slot, SlotAnswer } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox } from '../look/Combobox.tsx';
import { ObservationEditor } from './ObservationEditor.tsx';
import { ObservationRow } from './ObservationRow.tsx';
import type { LengthUnit } from './readSeen.ts';
import { nextObservationId, withAbsent, withObservation, withObservationChanged, withoutObservation } from './sheetEdits.ts';
import { useBench } from './UnitContext.ts';

interface Props {
  readonly slot: Slot;
  readonly observations: readonly Observation[];
  readonly absent: boolean;
  readonly answer: SlotAnswer | null;
  readonly disputed: ReadonlySet<ObservationId>;
  readonly unit: LengthUnit;
  onWalk(from: Element, direction: 1 | -1): void;
}

/** One slot: its entries, and the box that adds the next. Enter adds and comes back to the box. */
export function SlotCard({ slot, observations, absent, answer, disputed, unit, onWalk }: Props) {
  const words = useWords();
  const { sheet, edit } = useBench();
  const [adding, setAdding] = useState<Feature | null>(null);
  const [changing, setChanging] = useState<ObservationId | null>(null);
  const box = useRef<HTMLInputElement>(null);
  const id = useId();

  const backToBox = () => {
    setAdding(null);
    setChanging(null);
    // The box is drawn again after this render; it takes the focus then.
    requestAnimationFrame(() => box.current?.focus());
  };
  const seen = new Map<string, number>();
  for (const one of observations) seen.set(one.feature, (seen.get(one.feature) ?? 0) + 1);

  return (
    <section className={absent ? 'slot is-absent' : 'slot'} aria-labelledby={id}>
      <div className="slot-head">
        <h3 id={id} className="head">
          {slot.name}
        </h3>
        <SlotCount answer={answer} absent={absent} />
        {adding !== null ? (
          <span />
        ) : (
          <Combobox
            className="slot-add no-print"
            label={`Add to ${slot.name}`}
            placeholder="add a feature"
            input={box}
            items={words.featuresOf(slot.id).map((feature) => ({
              key: feature.id,
              text: feature.name,
              detail: `${words.stageName(feature.stage)}${seen.has(feature.id) ? ' · entered' : ''}`,
              value: feature,
            }))}
            none="The atlas knows no such feature here."
            onPick={setAdding}
            onArrowAway={(direction) => box.current !== null && onWalk(box.current, direction)}
          />
        )}
        <label className="slot-absent no-print" title={`The unit came without ${slot.name}`}>
          <input
            type="checkbox"
            aria-label={`absent: ${slot.name} is not with the unit`}
            checked={absent}
            onChange={(event) => edit(withAbsent(slot.id, event.target.checked))}
          />
          absent
        </label>
      </div>
      {observations.length > 0 && (
        <ul className="entries" aria-label={`Entries for ${slot.name}`}>
          {observations.map((observation) =>
            changing === observation.id ? (
              <li key={observation.id}>
                <ObservationEditor
                  feature={words.feature(observation.feature) ?? missingFeature(observation)}
                  start={observation}
                  unit={unit}
                  onDone={(value, sure, note) => {
                    const { note: _, ...rest } = observation;
                    edit(withObservationChanged({ ...rest, value, sure, ...(note === '' ? {} : { note }) }));
                    backToBox();
                  }}
                  onLeave={backToBox}
                />
              </li>
            ) : (
              <ObservationRow
                key={observation.id}
                observation={observation}
                disputed={disputed.has(observation.id)}
                unit={unit}
                onChange={() => setChanging(observation.id)}
                onRemove={() => {
                  edit(withoutObservation(observation.id));
                  backToBox();
                }}
              />
            ),
          )}
        </ul>
      )}
      {adding !== null && (
        <ObservationEditor
          feature={adding}
          start={null}
          unit={unit}
          onDone={(value, sure, note) => {
            edit(
              withObservation({
                id: nextObservationId(sheet),
                slot: slot.id,
                feature: adding.id,
                value,
                sure,
                ...(note === '' ? {} : { note }),
              }),
            );
            backToBox();
          }}
          onLeave={backToBox}
        />
      )}
    </section>
  );
}

/** How many listed parts are left in the slot, or why the question does not arise. */
function SlotCount({ answer, absent }: { readonly answer: SlotAnswer | null; readonly absent: boolean }) {
  if (absent) return <span className="slot-count">not here</span>;
  if (answer === null) return <span className="slot-count" />;
  const left = answer.candidates.length;
  return (
    <span className={answer.doubtful ? 'slot-count is-doubtful' : 'slot-count'}>
      {answer.doubtful ? (
        <span title="Its entries or its neighbours cannot all be true of listed parts: an unlisted part, or a wrong entry">⚠︎ doubtful</span>
      ) : (
        <span title={`${left} of ${answer.listed} parts the atlas lists here agree with everything entered`}>
          <b>{left}</b> of {answer.listed}
        </span>
      )}
    </span>
  );
}

/** A sheet from another atlas may name a feature this one does not have; its entry can still be read, changed and removed. */
const missingFeature = (observation: Observation): Feature =>
  ({
    id: observation.feature,
    slot: observation.slot,
    name: observation.feature,
    kind: observation.value.kind,
    stage: '',
    minutes: 0,
  }) as unknown as Feature;
