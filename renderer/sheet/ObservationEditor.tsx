import { type FormEvent, type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import type { Feature, Observation, Seen, Sure } from '../../reasoner/index.ts';
import { type LengthUnit, mmPerInch, type Read, readCount, readMeasure, readUncertainty, startingUncertainty } from './readSeen.ts';
import { plain, sayCount } from './sayings.ts';

interface Props {
  readonly feature: Feature;
  /** The entry to change, or null for a new one. */
  readonly start: Observation | null;
  readonly unit: LengthUnit;
  onDone(value: Seen, sure: Sure, note: string): void;
  onLeave(): void;
}

/** The value of one feature, by its kind, and how sure it is. Enter takes it, Escape leaves it. */
export function ObservationEditor({ feature, start, unit, onDone, onLeave }: Props) {
  const [draft, setDraft] = useState<Draft>(() => draftOf(feature, start, unit));
  const [trouble, setTrouble] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const id = useId();
  const change = (part: Partial<Draft>) => {
    setDraft((before) => ({ ...before, ...part }));
    setTrouble(null);
  };

  useEffect(() => {
    const first =
      form.current?.querySelector<HTMLInputElement>('.value-in input:checked') ??
      form.current?.querySelector<HTMLInputElement>('.value-in input');
    first?.focus();
    first?.select();
    form.current?.scrollIntoView({ block: 'nearest' });
  }, []);

  const take = (event: FormEvent) => {
    event.preventDefault();
    const read = entryOf(feature, draft, unit);
    if (read.ok) onDone(read.value.value, read.value.sure, draft.note.trim());
    else setTrouble(read.sentence);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    onLeave();
  };
  const angle = feature.unit === 'deg';
  const problem = trouble === null ? undefined : `${id}-trouble`;

  return (
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
          {(feature.kind === 'count' || feature.kind === 'measure') && (
            <>
              <input
                className="field number"
                inputMode="decimal"
                autoComplete="off"
                aria-labelledby={`${id}-name`}
                aria-invalid={trouble !== null}
                aria-describedby={problem}
                placeholder={feature.kind === 'count' ? '10, or 10 or 11' : undefined}
                value={draft.text}
                onChange={(event) => change({ text: event.target.value })}
              />
              <span className="soft">{feature.kind === 'count' ? (feature.unit === 'year' ? '' : feature.unit) : angle ? '°' : unit}</span>
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
      <div className="editor-sure">
        {feature.kind === 'measure' && !draft.told && (
          <label className="uncertainty">
            u ±
            <input
              className="field number"
              inputMode="decimal"
              autoComplete="off"
              aria-label="Standard uncertainty u"
              value={draft.u}
              onChange={(event) => change({ u: event.target.value })}
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
      {trouble !== null ? (
        <p className="editor-trouble" id={`${id}-trouble`} role="alert">
          {trouble}
        </p>
      ) : (
        <Hint feature={feature} told={draft.told} angle={angle} />
      )}
    </form>
  );
}

/** Where to look, with what, and where the uncertainty comes from. */
function Hint({ feature, told, angle }: { readonly feature: Feature; readonly told: boolean; readonly angle: boolean }) {
  if (told) return <p className="hint">What is told is tested against the unit; it never rules a name out.</p>;
  if (feature.kind !== 'measure') return feature.instrument === undefined ? null : <p className="hint">With: {feature.instrument}.</p>;
  const step = feature.resolution === undefined ? null : `${plain(feature.resolution, 4)} ${angle ? '°' : 'mm'}`;
  return (
    <p className="hint">
      {feature.instrument ?? 'No instrument named'}
      {step === null ? '; say how far off it may be.' : `, step ${step}; u starts at step ÷ √3.`} Agreement is judged at ±2u.
    </p>
  );
}

interface PickProps {
  readonly name: string;
  readonly label?: string;
  readonly labelledBy?: string;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  readonly picked: string | null;
  onPick(value: string): void;
}

/** One of a few, all in sight: arrows choose, Enter takes the entry. */
function Picks({ name, label, labelledBy, options, picked, onPick }: PickProps) {
  return (
    <div className="picks" role="radiogroup" aria-label={label} aria-labelledby={labelledBy}>
      {options.map((option) => (
        <label key={option.value}>
          <input type="radio" name={name} value={option.value} checked={picked === option.value} onChange={() => onPick(option.value)} />
          <span>{option.text}</span>
        </label>
      ))}
    </div>
  );
}

interface Draft {
  readonly text: string;
  readonly option: string | null;
  readonly present: string | null;
  readonly blank: boolean;
  readonly told: boolean;
  readonly u: string;
  readonly note: string;
}

function draftOf(feature: Feature, start: Observation | null, unit: LengthUnit): Draft {
  const shown = (value: number) => plain(feature.unit !== 'deg' && unit === 'inch' ? value / mmPerInch : value, 6).replace('−', '-');
  const u = startingUncertainty(feature.resolution);
  const empty: Draft = {
    text: '',
    option: null,
    present: null,
    blank: false,
    told: false,
    u: u === null ? '' : shown(u),
    note: start?.note ?? '',
  };
  if (start === null) return empty;
  const sure = { told: start.sure.kind === 'told', ...(start.sure.kind === 'measured' ? { u: shown(start.sure.u) } : {}) };
  switch (start.value.kind) {
    case 'count':
      return { ...empty, ...sure, text: sayCount(start.value.from, start.value.to) };
    case 'measure':
      return { ...empty, ...sure, text: shown(start.value.value) };
    case 'choice':
      return { ...empty, ...sure, option: start.value.option };
    case 'presence':
      return { ...empty, ...sure, present: start.value.present ? 'yes' : 'no' };
    case 'mark':
      return { ...empty, ...sure, text: start.value.text ?? '', blank: start.value.text === null };
  }
}

/** The draft as an entry, or the sentence that says what is missing. */
function entryOf(feature: Feature, draft: Draft, unit: LengthUnit): Read<{ readonly value: Seen; readonly sure: Sure }> {
  const sure: Sure = draft.told ? { kind: 'told' } : { kind: 'seen' };
  const entry = (value: Seen, how: Sure = sure) => ({ ok: true, value: { value, sure: how } }) as const;
  const refused = (sentence: string) => ({ ok: false, sentence }) as const;
  switch (feature.kind) {
    case 'count': {
      const count = readCount(draft.text);
      return count.ok ? entry({ kind: 'count', ...count.value }) : count;
    }
    case 'measure': {
      const kind = feature.unit === 'deg' ? 'deg' : 'mm';
      const measure = readMeasure(draft.text, kind, unit);
      if (!measure.ok) return measure;
      if (draft.told) return entry({ kind: 'measure', value: measure.value });
      const u = readUncertainty(draft.u, kind, unit);
      return u.ok ? entry({ kind: 'measure', value: measure.value }, { kind: 'measured', u: u.value }) : u;
    }
    case 'choice':
      return draft.option === null
        ? refused('Choose one first: the arrow keys move, Enter takes it.')
        : entry({ kind: 'choice', option: draft.option });
    case 'presence':
      return draft.present === null ? refused('There, or not there?') : entry({ kind: 'presence', present: draft.present === 'yes' });
    case 'mark': {
      if (draft.blank) return entry({ kind: 'mark', text: null });
      const text = draft.text.trim();
      return text === '' ? refused('Write the letters, or tick “no letters”.') : entry({ kind: 'mark', text });
    }
  }
}
