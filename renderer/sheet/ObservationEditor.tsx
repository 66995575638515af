import { type FormEvent, type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import type { Feature, Instrument, Observation, Slip, Unseen } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { desk } from '../bridge/desk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { plain } from '../values/sayings.ts';
import { type Draft, draftOf, type Entry, entryOf, instrumentsFor, shownIn, shownWithin } from './draft.ts';
import { InstrumentChoice } from './InstrumentChoice.tsx';
import { NumberPad } from './NumberPad.tsx';
import { Picks } from './Picks.tsx';
import { SlipQuestion } from './SlipQuestion.tsx';
import { isNumber, isUsual, saysTheSame } from './slips.ts';
import { UnseenAnswers } from './UnseenAnswers.tsx';
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
  onDone(entry: Entry): void;
  onCounted(counts: readonly Counted[]): void;
  /** Null where an entry is being changed: it has been seen. */
  onUnseen: ((why: Unseen['why']) => void) | null;
  onLeave(): void;
}

/** The value of one feature, by its kind, and how sure it is. Enter takes it, Escape leaves it. */
export function ObservationEditor(props: Props) {
  const { feature, start, unit, onDone, onLeave } = props;
  const { instruments } = useWords().vocabulary;
  const [draft, setDraft] = useState<Draft>(() => draftOf(feature, start, unit, instruments));
  const [trouble, setTrouble] = useState<string | null>(null);
  const [counting, setCounting] = useState(false);
  /** An entry that is hard to believe, and the question about it. */
  const [doubted, setDoubted] = useState<{ readonly entry: Entry; readonly slip: Extract<Slip, { kind: 'implausible' }> } | null>(null);
  const { sheet } = useBench();
  /** Moves on with every change, so that an answer to what has changed since is dropped. */
  const asking = useRef(0);
  const form = useRef<HTMLFormElement>(null);
  const id = useId();
  const change = (part: Partial<Draft>) => {
    asking.current += 1;
    setDraft((before) => ({ ...before, ...part }));
    setTrouble(null);
    setDoubted(null);
  };

  useEffect(() => {
    const first =
      form.current?.querySelector<HTMLInputElement>('.value-in input:checked') ??
      form.current?.querySelector<HTMLInputElement>('.value-in input');
    first?.focus();
    first?.select();
    form.current?.scrollIntoView({ block: 'nearest' });
    return () => {
      asking.current += 1;
    };
  }, []);

  const ask = async (entry: Entry) => {
    asking.current += 1;
    const here = asking.current;
    const reply = await desk.ask('entry.slip', { sheet, feature: feature.id, value: entry.value, sure: entry.sure });
    if (asking.current !== here) return;
    if (!reply.ok) setTrouble(reply.trouble.sentence);
    else if (reply.value.kind === 'plausible') onDone(entry);
    else if (reply.value.kind === 'impossible') setTrouble(reply.value.sentence);
    else setDoubted({ entry, slip: reply.value });
  };
  const take = (event: FormEvent) => {
    event.preventDefault();
    const read = entryOf(feature, draft, unit);
    if (!read.ok) {
      setTrouble(read.sentence);
      return;
    }
    const entry = read.value;
    if (start?.confirmed === true && saysTheSame(start.value, entry.value)) onDone({ ...entry, confirmed: true });
    else if (isUsual(feature, entry) && !isNumber(feature, entry.value, entry.sure)) onDone(entry);
    else void ask(entry);
  };
  const readAgain = () => {
    setDoubted(null);
    const field = form.current?.querySelector<HTMLInputElement>('.value-in input');
    field?.focus();
    field?.select();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    if (doubted !== null) readAgain();
    else onLeave();
  };
  const angle = feature.unit === 'deg';
  const figures = feature.kind === 'count' || feature.kind === 'measure';
  const countable = feature.kind === 'count' && feature.unit !== 'year' && props.countedTogether.length > 0;
  const problem = trouble === null ? undefined : `${id}-trouble`;

  return (
    <>
      <form
        ref={form}
        className="editor fresh no-print"
        aria-label={`${feature.name}: enter`}
        onSubmit={take}
        onKeyDown={onKeyDown}
        noValidate
      >
        <div className="editor-value">
          <span className="editor-feature" id={`${id}-name`}>
            {feature.name}
          </span>
          <div className="value-in">
            {figures && (
              <>
                <input
                  className="field number"
                  inputMode={feature.kind === 'count' ? 'numeric' : 'decimal'}
                  autoComplete="off"
                  aria-labelledby={`${id}-name`}
                  aria-invalid={trouble !== null}
                  aria-describedby={problem}
                  placeholder={feature.kind === 'count' ? '10, or 10 or 11' : undefined}
                  value={draft.text}
                  onChange={(event) => change({ text: event.target.value })}
                />
                <span className="soft">
                  {feature.kind === 'count' ? (feature.unit === 'year' ? '' : feature.unit) : angle ? '°' : unit}
                </span>
                {countable && !draft.told && (
                  <button type="button" className="button" onClick={() => setCounting(true)}>
                    Count by tapping
                  </button>
                )}
              </>
            )}
            {feature.kind === 'choice' && (
              <Picks
                name={`${id}-choice`}
                labelledBy={`${id}-name`}
                options={(feature.options ?? []).map((option) => ({ value: option.id, text: option.name }))}
                picked={draft.option}
                onPick={(option) => change({ option })}
              />
            )}
            {feature.kind === 'presence' && (
              <Picks
                name={`${id}-presence`}
                labelledBy={`${id}-name`}
                options={[
                  { value: 'yes', text: 'there' },
                  { value: 'no', text: 'not there' },
                ]}
                picked={draft.present}
                onPick={(present) => change({ present })}
              />
            )}
            {feature.kind === 'mark' && (
              <>
                <input
                  className="field"
                  autoComplete="off"
                  spellCheck={false}
                  aria-labelledby={`${id}-name`}
                  aria-invalid={trouble !== null}
                  aria-describedby={problem}
                  placeholder="the letters, as they stand"
                  disabled={draft.blank}
                  value={draft.blank ? '' : draft.text}
                  onChange={(event) => change({ text: event.target.value })}
                />
                <label className="tick">
                  <input type="checkbox" checked={draft.blank} onChange={(event) => change({ blank: event.target.checked })} /> no letters
                </label>
              </>
            )}
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
        <div className="editor-sure">
          {feature.kind === 'measure' && !draft.told && (
            <InstrumentChoice
              instruments={instrumentsFor(feature, instruments)}
              named={draft.instrument}
              onNamed={(name, u) => change({ instrument: name, ...(u === null ? {} : { within: shownWithin(feature, u, unit) }) })}
            />
          )}
          {feature.kind === 'measure' && !draft.told && (
            <label className="uncertainty">
              ±
              <input
                className="field number"
                inputMode="decimal"
                autoComplete="off"
                aria-label="How far off it may be, ±"
                title={twiceU}
                value={draft.within}
                onChange={(event) => change({ within: event.target.value })}
              />
              <span className="soft">{angle ? '°' : unit}</span>
            </label>
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
