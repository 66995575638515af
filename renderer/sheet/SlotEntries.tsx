import { type ReactNode, type RefObject, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import type { Feature, FeatureId, Observation, ObservationId, Slot, Unseen } from '../../reasoner/index.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import {
  type Edit,
  nextObservationId,
  nextObservationIds,
  together,
  withObservation,
  withObservationChanged,
  withObservations,
  withoutObservation,
  withoutUnseen,
  withUnseen,
} from '../bench/sheetEdits.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox } from '../look/Combobox.tsx';
import type { LengthUnit } from '../values/readSeen.ts';
import { countedTogether } from './countedTogether.ts';
import { observationOf } from './draft.ts';
import { ObservationEditor } from './ObservationEditor.tsx';
import { ObservationRow } from './ObservationRow.tsx';
import { offeredBefore } from './offeredBefore.ts';
import { confirmedAsBefore } from './slips.ts';
import { UnseenRow } from './UnseenRow.tsx';
import type { Counted } from './WheelCounter.tsx';

interface Props {
  readonly slot: Slot;
  readonly observations: readonly Observation[];
  readonly unseen: readonly Unseen[];
  readonly disputed: ReadonlySet<ObservationId>;
  readonly unit: LengthUnit;
  /** Whether figures are offered to tap. */
  readonly pad: boolean;
  /** Whether an entry may be that nobody could look. */
  readonly mayBeUnseen: boolean;
  onWalk(from: Element, direction: 1 | -1): void;
  /** Places the box that adds an entry. */
  children(add: ReactNode): ReactNode;
}

/** What is entered about one slot, and the box that adds the next. Enter adds and comes back to the box. */
export function SlotEntries({ slot, observations, unseen, disputed, unit, pad, mayBeUnseen, onWalk, children }: Props) {
  const words = useWords();
  const { sheet, entering } = useBench();
  const { edit, openEntry } = useBenchActions();
  const [changing, setChanging] = useState<ObservationId | null>(null);
  const box = useRef<HTMLInputElement>(null);
  const features = words.featuresOf(slot.id);
  const adding = entering?.slot === slot.id ? (words.feature(entering.feature) ?? null) : null;

  const backToBox = () => {
    // Drawn at once, also where the desk was asked first: the box is there again, and takes the focus.
    flushSync(() => {
      openEntry(null);
      setChanging(null);
    });
    box.current?.focus();
    // A dialog that closes with it gives the focus back to what is gone by then; ours comes after that. Where somebody has gone on, it stays there.
    requestAnimationFrame(() => {
      if (document.activeElement === null || document.activeElement === document.body) box.current?.focus();
    });
  };
  const openNew = (feature: FeatureId) => {
    setChanging(null);
    openEntry({ slot: slot.id, feature });
  };
  const seen = new Set<string>(observations.map(({ feature }) => feature));
  const why = new Map<string, Unseen['why']>(unseen.map((one) => [one.feature, one.why]));
  const stateOf = (feature: Feature): string =>
    seen.has(feature.id) ? ' · entered' : why.has(feature.id) ? ` · ${why.get(feature.id)}` : '';

  /** One observation for each count, each new, in one step back. */
  const enterCounts = (counts: readonly Counted[], inPlaceOf: ObservationId | null) => {
    const ids = nextObservationIds(sheet, counts.length);
    const made = counts.map(
      ({ feature, from, to, note }, index): Observation =>
        confirmedAsBefore(sheet, feature.id, {
          id: ids[index] as ObservationId,
          slot: slot.id,
          feature: feature.id,
          value: { kind: 'count', from, to },
          sure: { kind: 'seen' },
          note,
        }),
    );
    edit(together([...(inPlaceOf === null ? [] : [withoutObservation(inPlaceOf)]), withObservations(made)]));
    backToBox();
  };

  const add =
    adding !== null ? (
      <span />
    ) : (
      <AddFeature
        slot={slot}
        features={features}
        stateOf={stateOf}
        input={box}
        onPick={openNew}
        onArrowAway={(direction) => box.current !== null && onWalk(box.current, direction)}
      />
    );
  return (
    <>
      {children(add)}
      {(observations.length > 0 || unseen.length > 0) && (
        <ul className="entries" aria-label={`Entries for ${slot.name}`}>
          {observations.map((observation) => (
            <EntryItem
              key={observation.id}
              observation={observation}
              changing={changing === observation.id}
              where={slot.name}
              disputed={disputed.has(observation.id)}
              unit={unit}
              pad={pad}
              onChange={() => {
                openEntry(null);
                setChanging(observation.id);
              }}
              onCounted={(counts) => enterCounts(counts, observation.id)}
              onEdited={(change) => {
                edit(change);
                backToBox();
              }}
              onLeave={backToBox}
            />
          ))}
          {unseen.map((one) => (
            <UnseenRow
              key={one.feature}
              unseen={one}
              onChange={() => openNew(one.feature)}
              onRemove={() => {
                edit(withoutUnseen(one.feature));
                backToBox();
              }}
            />
          ))}
        </ul>
      )}
      {adding !== null && (
        <NewEntry
          key={adding.id}
          feature={adding}
          where={slot.name}
          unseen={why.get(adding.id) ?? null}
          unit={unit}
          pad={pad}
          mayBeUnseen={mayBeUnseen}
          onEdited={(change) => {
            edit(change);
            backToBox();
          }}
          onCounted={(counts) => enterCounts(counts, null)}
          onLeave={backToBox}
        />
      )}
    </>
  );
}

interface AddFeatureProps {
  readonly slot: Slot;
  readonly features: readonly Feature[];
  /** What is to be said of a feature beside its stage. */
  stateOf(feature: Feature): string;
  readonly input: RefObject<HTMLInputElement | null>;
  onPick(feature: FeatureId): void;
  onArrowAway(direction: 1 | -1): void;
}

/** The box that finds a feature of the slot, to enter it. */
function AddFeature({ slot, features, stateOf, input, onPick, onArrowAway }: AddFeatureProps) {
  const words = useWords();
  return (
    <Combobox
      className="slot-add no-print"
      landmark="add a feature"
      label={`Add to ${slot.name}`}
      placeholder="add a feature"
      input={input}
      items={features.map((feature) => ({
        key: feature.id,
        text: feature.name,
        detail: `${words.stageName(feature.stage)}${stateOf(feature)}`,
        also: feature.alsoCalled?.join(' ') ?? '',
        rank: offeredBefore(feature, words.vocabulary.stages),
        value: feature,
      }))}
      none="The atlas knows no such feature here."
      onPick={(feature) => onPick(feature.id)}
      onArrowAway={onArrowAway}
    />
  );
}

interface NewEntryProps {
  readonly feature: Feature;
  readonly where: string;
  readonly unseen: Unseen['why'] | null;
  readonly unit: LengthUnit;
  readonly pad: boolean;
  readonly mayBeUnseen: boolean;
  onEdited(edit: Edit): void;
  onCounted(counts: readonly Counted[]): void;
  onLeave(): void;
}

/** The editor of an entry that is not on the sheet yet. */
function NewEntry({ feature, where, unseen, unit, pad, mayBeUnseen, onEdited, onCounted, onLeave }: NewEntryProps) {
  const { vocabulary } = useWords();
  const { sheet } = useBench();
  const { id, slot } = feature;
  return (
    <ObservationEditor
      feature={feature}
      countedTogether={countedTogether(
        feature,
        vocabulary.features.filter((one) => one.slot === slot),
      )}
      where={where}
      start={null}
      unseen={unseen}
      unit={unit}
      pad={pad}
      edited={(entry) => withObservation(observationOf({ id: nextObservationId(sheet), slot, feature: id }, entry))}
      onEdited={onEdited}
      onCounted={onCounted}
      onUnseen={mayBeUnseen ? (reason) => onEdited(withUnseen({ slot, feature: id, why: reason })) : null}
      onLeave={onLeave}
    />
  );
}

interface EntryItemProps {
  readonly observation: Observation;
  readonly changing: boolean;
  readonly where: string;
  readonly disputed: boolean;
  readonly unit: LengthUnit;
  readonly pad: boolean;
  onChange(): void;
  onCounted(counts: readonly Counted[]): void;
  onEdited(edit: Edit): void;
  onLeave(): void;
}

/** One entry of a slot: its row, or while it is changed the editor in its place. */
function EntryItem({ observation, changing, where, disputed, unit, pad, onChange, onCounted, onEdited, onLeave }: EntryItemProps) {
  const words = useWords();
  if (!changing)
    return (
      <ObservationRow
        observation={observation}
        disputed={disputed}
        unit={unit}
        onChange={onChange}
        onRemove={() => onEdited(withoutObservation(observation.id))}
      />
    );
  const feature = words.feature(observation.feature) ?? missingFeature(observation);
  const { id, slot, feature: about } = observation;
  return (
    <li>
      <ObservationEditor
        feature={feature}
        countedTogether={[feature]}
        where={where}
        start={observation}
        unseen={null}
        unit={unit}
        pad={pad}
        edited={(entry) => withObservationChanged(observationOf({ id, slot, feature: about }, entry))}
        onEdited={onEdited}
        onCounted={onCounted}
        onUnseen={null}
        onLeave={onLeave}
      />
    </li>
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
