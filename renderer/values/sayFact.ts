import type { Fact, Feature } from '../../reasoner/index.ts';
import { plain } from './figures.ts';
import { bareLength, sayMeasure } from './lengths.ts';
import type { LengthUnit } from './readSeen.ts';
import { sayCount } from './sayings.ts';

/** What the atlas knows of a feature, as the trade writes it: limits as nominal with both deviations. */
export function sayFact(feature: Feature | undefined, fact: Fact, unit: LengthUnit): string {
  switch (fact.kind) {
    case 'count':
      return `${sayCount(fact.from, fact.to)}${feature?.unit === undefined || feature.unit === 'year' ? '' : ` ${feature.unit}`}`;
    case 'measure': {
      const kind = feature?.unit === 'deg' ? 'deg' : 'mm';
      // A size nobody gave limits for is held as it stands; two noughts would look as if somebody had asked for that.
      if (fact.code === undefined && fact.lower === 0 && fact.upper === 0)
        return `${sayMeasure(fact.nominal, kind, unit)}, no limits given`;
      const code = fact.code === undefined ? '' : ` ${fact.code}`;
      return `${sayMeasure(fact.nominal, kind, unit)}${code} (${deviation(fact.lower, kind, unit)} / ${deviation(fact.upper, kind, unit)})`;
    }
    case 'choice':
      return fact.anyOf.map((id) => feature?.options?.find((option) => option.id === id)?.name ?? id).join(' or ');
    case 'presence':
      return fact.present ? 'there' : 'not there';
    case 'mark': {
      const letters = fact.anyOf.map((text) => `“${text}”`);
      return [...letters, ...(fact.blank ? ['no letters'] : [])].join(' or ');
    }
    case 'not known':
      return 'not known';
  }
}

const deviation = (value: number, kind: 'mm' | 'deg', unit: LengthUnit): string => {
  const shown = kind === 'mm' ? bareLength(value, unit) : plain(value, 4);
  return value > 0 ? `+${shown}` : shown;
};
