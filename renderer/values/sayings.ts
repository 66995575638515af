import type { Feature, Observation, Seen, Sure } from '../../reasoner/index.ts';
import { sayMeasure } from './lengths.ts';
import type { LengthUnit } from './readSeen.ts';

/** Values as a person writes them. The measure is shown in the chosen unit; the sheet keeps mm. */
export function sayValue(feature: Feature | undefined, seen: Seen, unit: LengthUnit): string {
  switch (seen.kind) {
    case 'count':
      return sayCount(seen.from, seen.to);
    case 'measure':
      return sayMeasure(seen.value, feature?.unit === 'deg' ? 'deg' : 'mm', unit);
    case 'choice':
      return feature?.options?.find((option) => option.id === seen.option)?.name ?? seen.option;
    case 'presence':
      return seen.present ? 'there' : 'not there';
    case 'mark':
      return seen.text === null ? 'no letters' : `“${seen.text}”`;
  }
}

export const sayCount = (from: number, to: number): string =>
  from === to ? String(from) : to - from === 1 ? `${from} or ${to}` : `${from} to ${to}`;

/** How sure a value is; of a measure, how far off it may be: ± twice the standard uncertainty, as in the reasons and the report. */
export function saySure(feature: Feature | undefined, sure: Sure, unit: LengthUnit): string {
  switch (sure.kind) {
    case 'seen':
      return 'seen';
    case 'told':
      return 'told';
    case 'measured':
      return `±${feature?.unit === 'deg' ? sayMeasure(2 * sure.u, 'deg', unit) : sayMeasure(2 * sure.u, 'mm', unit).replace(/ mm$/, '')}`;
  }
}

/** One entry in words, for labels and lists: "blade count 10 or 11, seen". */
export const sayObservation = (feature: Feature | undefined, observation: Observation, unit: LengthUnit): string =>
  `${feature?.name ?? observation.feature} ${sayValue(feature, observation.value, unit)}, ${saySure(feature, observation.sure, unit)}`;
