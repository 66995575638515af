import { useId, useMemo, useState } from 'react';
import type { Feature, Instrument, Observation, Unseen } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import type { Edit } from '../bench/sheetEdits.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { landmark } from '../look/landmarks.ts';
import { NumberMeaning } from '../plate/NumberMeaning.tsx';
import { plain } from '../values/figures.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { type Draft, type Entry, instrumentsFor, shownIn, shownWithin } from './draft.ts';
import { InstrumentChoice } from './InstrumentChoice.tsx';
import { NumberPad } from './NumberPad.tsx';
import { Picks } from './Picks.tsx';
import { SlipQuestion } from './SlipQuestion.tsx';
import { UnseenAnswers } from './UnseenAnswers.tsx';
import { useEntryEditor } from './useEntryEditor.ts';
import { useJudgedAhead } from './useJudgedAhead.ts';
import { ValueField } from './ValueField.tsx';
import { type Counted, WheelCounter } from './WheelCounter.tsx';

interface Props {
  readonly feature: Feature;
  /** Features counted in the same go round the wheel, this one among them; one or none means there is nothing to count apart. */
  readonly countedTogether: readonly Feature[];
  readonly where: string;
  /** The entry to change, or null for a new one. */
  readonly start: Observation | null;
  /** What is on the sheet when this could not be told before. */
  readonly unseen: Unseen['why'] | null;
  readonly unit: LengthUnit;
  /** Whether figures are offered to tap. */
  readonly pad: boolean;
  /** What the entry does to the sheet. */
  edited(entry: Entry): Edit;
  onEdited(edit: Edit): void;
  onCounted(counts: readonly Counted[]): void;
  /** Null where an entry is being changed: it has been seen. */
  onUnseen: ((why: Unseen['why']) => void) | null;
  onLeave(): void;
}

/** The value of one feature, by its kind, and how sure it is. Enter takes it, Escape leaves it. */
export function ObservationEditor(props: Props) {
  const { feature, start, unit, edited, onEdited, onLeave } = props;
  const onDone = (entry: Entry) => onEdited(edited(entry));
  const { instruments } = useWords().vocabulary;
  const [counting, setCounting] = useState(false);
  const { form, draft, trouble, doubted, change, take, readAgain, onKeyDown } = useEntryEditor({
    feature,
    start,
    unit,
    instruments,
    onDone,
    onLeave,
  });
  useJudgedAhead(feature, draft, unit, edited);
  const id = useId();
  const angle = feature.unit === 'deg';
  const figures = feature.kind === 'count' || feature.kind === 'measure';
  const countable = feature.kind === 'count' && feature.unit !== 'year' && props.countedTogether.length > 0;
  const problem = trouble === null ? undefined : `${id}-trouble`;

  return (
    <>
      <form
        ref={form}
        className="editor fresh no-print"
        {...landmark('own undo')}
        aria-label={`${feature.name}: enter`}
        onSubmit={take}
        onKeyDown={onKeyDown}
        noValidate
      >
        <div className="editor-value">
          <span className="editor-feature" id={`${id}-name`}>
            {feature.name}
          </span>
          <div className="value-in" {...landmark('value')}>
            <ValueField
              feature={feature}
              draft={draft}
              unit={unit}
              id={id}
              wrong={trouble !== null}
              problem={problem}
              onChange={change}
              onCount={countable && !draft.told ? () => setCounting(true) : null}
            />
          </div>
          <Picks
            name={`${id}-sure`}
            label="How sure"
            options={[
              { value: 'own', text: feature.kind === 'measure' ? 'measured' : 'seen' },
              { value: 'told', text: 'told' },
            ]}
            picked={draft.told ? 'told' : 'own'}
            onPick={(how) => change({ told: how === 'told' })}
          />
        </div>
        {props.pad && figures && <NumberPad text={draft.text} onText={(text) => change({ text })} />}
        {feature.kind === 'mark' && (feature.says === 'part number' || feature.says === 'serial number') && !draft.blank && (
          <PlateMeaning feature={feature} says={feature.says} text={draft.text} />
        )}
        <div className="editor-sure">
          {feature.kind === 'measure' && !draft.told && (
            <HowFarOff feature={feature} draft={draft} unit={unit} instruments={instruments} onChange={change} />
          )}
          <input
            className="field note"
            aria-label="Note"
            placeholder="note"
            maxLength={4000}
            value={draft.note}
            onChange={(event) => change({ note: event.target.value })}
          />
          <button type="submit" className="button main">
            {start === null ? 'Add' : 'Change'}
          </button>
          <button type="button" className="button plain" onClick={onLeave}>
            Leave
          </button>
        </div>
        {props.onUnseen !== null && <UnseenAnswers why={props.unseen} onUnseen={props.onUnseen} />}
        {doubted !== null ? (
          <SlipQuestion
            feature={feature}
            slip={doubted.slip}
            unit={unit}
            takesFocus
            onMeant={(value) => onDone({ ...doubted.entry, value })}
            onConfirmed={() => onDone({ ...doubted.entry, confirmed: true })}
            onReadAgain={readAgain}
          />
        ) : trouble !== null ? (
          <p className="editor-trouble" id={`${id}-trouble`} role="alert">
            {trouble}
          </p>
        ) : (
          <Hint
            feature={feature}
            told={draft.told}
            angle={angle}
            unit={unit}
            instrument={instruments.find(({ name }) => name === draft.instrument)}
          />
        )}
      </form>
      {counting && (
        <WheelCounter features={props.countedTogether} where={props.where} onCounted={props.onCounted} onLeave={() => setCounting(false)} />
      )}
    </>
  );
}

interface PlateMeaningProps {
  readonly feature: Feature;
  readonly says: 'part number' | 'serial number';
  readonly text: string;
}

/** What a number off the plate means as it is typed, beside what else is on the plate. */
function PlateMeaning({ feature, says, text }: PlateMeaningProps) {
  const { sheet } = useBench();
  const others = useMemo(() => {
    const matters = whatMatters(sheet);
    return { ...matters, observations: matters.observations.filter((one) => one.feature !== feature.id) };
  }, [sheet, feature.id]);
  return <NumberMeaning text={text} says={says} entry={{ feature: feature.id, sheet: others }} />;
}

interface HowFarOffProps {
  readonly feature: Feature;
  readonly draft: Draft;
  readonly unit: LengthUnit;
  readonly instruments: readonly Instrument[];
  onChange(part: Partial<Draft>): void;
}

/** With what a size was measured, and how far off it may be. */
function HowFarOff({ feature, draft, unit, instruments, onChange }: HowFarOffProps) {
  return (
    <>
      <InstrumentChoice
        instruments={instrumentsFor(feature, instruments)}
        named={draft.instrument}
        onNamed={(name, u) => onChange({ instrument: name, ...(u === null ? {} : { within: shownWithin(feature, u, unit) }) })}
      />
      <label className="uncertainty">
        ±
        <input
          className="field number"
          inputMode="decimal"
          autoComplete="off"
          aria-label="How far off it may be, ±"
          title={twiceU}
          value={draft.within}
          onChange={(event) => onChange({ within: event.target.value })}
        />
        <span className="soft">{feature.unit === 'deg' ? '°' : unit}</span>
      </label>
    </>
  );
}

interface HintProps {
  readonly feature: Feature;
  readonly told: boolean;
  readonly angle: boolean;
  readonly unit: LengthUnit;
  readonly instrument: Instrument | undefined;
}

/** What ± means wherever it stands, in the field, the entries, the reasons and the report. */
const twiceU = '± is twice the standard uncertainty u; a size is held to lie within it';

/** With what, and where the uncertainty comes from. */
function Hint({ feature, told, angle, unit, instrument }: HintProps) {
  if (told) return <p className="hint">What is told is tested against the unit; it never rules a name out.</p>;
  if (feature.kind !== 'measure') return feature.instrument === undefined ? null : <p className="hint">With: {feature.instrument}.</p>;
  const said = (length: number) =>
    `${angle ? plain(length, 4) : shownIn(feature, length, unit)} ${angle ? '°' : unit === 'inch' ? 'in' : 'mm'}`;
  if (instrument !== undefined) {
    return (
      <p className="hint">
        {twiceU}. Here u = {said(instrument.u)} ({instrument.name}): {instrument.basis}.
      </p>
    );
  }
  return (
    <p className="hint">
      {feature.instrument ?? 'No instrument named'}
      {feature.resolution === undefined ? '; say how far off it may be.' : `, step ${said(feature.resolution)}; u starts at step ÷ √3.`}{' '}
      {twiceU}.
    </p>
  );
}
