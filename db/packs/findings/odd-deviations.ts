import type { Fact, FeatureId } from '../../../reasoner/index.ts';
import { type Warning, warning } from '../warnings.ts';
import type { Finding, Ground } from './ground.ts';
import { rangeText, sizeText } from './ground.ts';
import { decimal } from './sizes.ts';

/** Deviations that allow one size alone, or that are the limits themselves. */
function* find({ own, features, at }: Ground): Generator<Warning> {
  for (const part of own)
    for (const id of Object.keys(part.facts) as FeatureId[]) {
      const [feature, fact] = [features.get(id), part.facts[id]];
      if (feature === undefined || fact?.kind !== 'measure' || fact.code !== undefined) continue;
      const { nominal, lower, upper } = fact;
      const what = `the ${feature.name} of ${JSON.stringify(part.name)}`;
      if (areLimits(fact)) {
        const [least, most] = [decimal(lower - nominal), decimal(upper - nominal)];
        yield warning(
          at.fact(part.id, id, 'lower'),
          `${what} is ${sizeText(nominal, feature)} with deviations of ${lower} and ${upper}`,
          `It is then ${rangeText(decimal(nominal + lower), decimal(nominal + upper), feature)}.`,
          {
            likely: `The deviations would be ${least} and ${most}, if limits were written in their place.`,
            alike: { cause: `limits ${id}`, name: part.name },
          },
        );
      } else if (lower === upper && lower !== 0) {
        const meant = lower > 0 ? `-${lower} and ${upper}` : `${lower} and ${-upper}`;
        yield warning(
          at.fact(part.id, id, 'lower'),
          `both deviations of ${what} are ${lower}`,
          `Only one size, ${sizeText(nominal + lower, feature)}, then agrees with it, and no part is made to one size alone.`,
          { likely: `They would be ${meant}, if a minus was lost or put twice.`, alike: { cause: `equal ${id}`, name: part.name } },
        );
      }
    }
}

/** Both within a tenth of the size itself, on either side of it: nothing is made so loosely. */
const areLimits = ({ nominal, lower, upper }: Extract<Fact, { kind: 'measure' }>): boolean =>
  nominal > 0 && lower <= nominal && upper >= nominal && lower >= nominal * 0.9 && upper <= nominal * 1.1;

export const oddDeviations: Finding = { about: 'deviations', rests: [], find };
