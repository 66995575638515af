import type { Feature, Instrument, Observation, Seen, Sure } from '../../reasoner/index.ts';
import { mmPerInch } from '../../reasoner/plain/units.ts';
import { plain } from '../values/figures.ts';
import { type LengthUnit, type Read, readCount, readMeasure, readUncertainty, startingUncertainty } from '../values/readSeen.ts';
import { sayCount } from '../values/sayings.ts';

/** An entry as it stands in the editor: text as typed, choices not yet made as null. */
export interface Draft {
  readonly text: string;
  readonly option: string | null;
  readonly present: string | null;
  readonly blank: boolean;
  readonly told: boolean;
  /** What it was measured with, by name; empty for none named. */
  readonly instrument: string;
  /** How far off it may be either way, ±: twice the standard uncertainty. */
  readonly within: string;
  readonly note: string;
}

/** An entry that can go on the sheet. */
export interface Entry {
  readonly value: Seen;
  readonly sure: Sure;
  /** What it was measured with, by name. */
  readonly instrument: string | null;
  readonly note: string;
  /** Asked whether it is what was read, somebody said yes (O7). */
  readonly confirmed?: true;
}

/** The entry as an observation of its place on the sheet. */
export const observationOf = (
  place: Pick<Observation, 'id' | 'slot' | 'feature'>,
  { value, sure, instrument, note, confirmed }: Entry,
): Observation => ({
  ...place,
  value,
  sure,
  ...(confirmed === undefined ? {} : { confirmed }),
  ...(instrument === null ? {} : { instrument }),
  ...(note === '' ? {} : { note }),
});

/** The instruments that read what the feature is measured in. */
export const instrumentsFor = (feature: Feature, all: readonly Instrument[]): readonly Instrument[] =>
  all.filter(({ unit }) => feature.kind === 'measure' && unit === feature.unit);

/** A length or angle for a field that is read back by `readMeasure`: plain digits, in the unit the window shows. */
export const shownIn = (feature: Feature, value: number, unit: LengthUnit): string =>
  plain(feature.unit !== 'deg' && unit === 'inch' ? value / mmPerInch : value, 6).replace('−', '-');

/** The ± of a standard uncertainty, for the field `readUncertainty` reads. */
export const shownWithin = (feature: Feature, u: number, unit: LengthUnit): string => shownIn(feature, 2 * u, unit);

export function draftOf(feature: Feature, start: Observation | null, unit: LengthUnit, instruments: readonly Instrument[]): Draft {
  const usual = instrumentsFor(feature, instruments).find(({ name }) => name === feature.instrument);
  const u = usual?.u ?? startingUncertainty(feature.resolution);
  const empty: Draft = {
    text: '',
    option: null,
    present: null,
    blank: false,
    told: false,
    instrument: start === null ? (usual?.name ?? '') : (start.instrument ?? ''),
    within: u === null ? '' : shownWithin(feature, u, unit),
    note: start?.note ?? '',
  };
  if (start === null) return empty;
  const sure = {
    told: start.sure.kind === 'told',
    ...(start.sure.kind === 'measured' ? { within: shownWithin(feature, start.sure.u, unit) } : {}),
  };
  switch (start.value.kind) {
    case 'count':
      return { ...empty, ...sure, text: sayCount(start.value.from, start.value.to) };
    case 'measure':
      return { ...empty, ...sure, text: shownIn(feature, start.value.value, unit) };
    case 'choice':
      return { ...empty, ...sure, option: start.value.option };
    case 'presence':
      return { ...empty, ...sure, present: start.value.present ? 'yes' : 'no' };
    case 'mark':
      return { ...empty, ...sure, text: start.value.text ?? '', blank: start.value.text === null };
  }
}

/** The draft as an entry, or the sentence that says what is missing. */
export function entryOf(feature: Feature, draft: Draft, unit: LengthUnit): Read<Entry> {
  const sure: Sure = draft.told ? { kind: 'told' } : { kind: 'seen' };
  const entry = (value: Seen, how: Sure = sure) =>
    ({
      ok: true,
      value: {
        value,
        sure: how,
        instrument: how.kind === 'measured' && draft.instrument !== '' ? draft.instrument : null,
        note: draft.note.trim(),
      },
    }) as const;
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
      const u = readUncertainty(draft.within, kind, unit);
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
