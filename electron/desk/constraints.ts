import { type BuildConstraints, type CompiledAtlas, findName, type Sheet } from '../../reasoner/index.ts';
import { refusal } from '../bridge/reply.ts';

/** What constraints speak of that the atlas does not have, or has otherwise; null where all is well. */
export const faultOfConstraints = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  constraints: BuildConstraints,
): ReturnType<typeof refusal> | null => {
  const { maker, keep, rates, stock = [], require: required = [] } = constraints;
  if (maker !== undefined && !atlas.makers.has(maker)) return refusal('not-found', 'maker', `The atlas has no maker “${maker}”.`);
  if (keep !== undefined && findName(atlas, sheet, keep) === null)
    return refusal('not-found', 'keep', `“${keep}” is no name this atlas can form.`);
  if (typeof rates === 'string' && !atlas.data.rates?.some(({ id }) => id === rates))
    return refusal('not-found', 'rates', `The atlas has no rates “${rates}”.`);
  const part = stock.find((id) => !atlas.parts.has(id));
  if (part !== undefined) return refusal('not-found', 'stock', `The atlas has no part “${part}”.`);
  for (const [i, { slot, feature, value }] of required.entries()) {
    const known = atlas.features.get(feature);
    if (known === undefined || known.slot !== slot)
      return refusal('not-found', `require.${i}.feature`, `“${feature}” is no feature of “${slot}”.`);
    if (known.kind !== value.kind)
      return refusal('malformed', `require.${i}.value`, `The ${known.name} is a ${known.kind}, not a ${value.kind}.`);
    const options = known.options?.map(({ id }) => id);
    if (value.kind === 'choice' && options?.includes(value.option) === false)
      return refusal('malformed', `require.${i}.value.option`, `The ${known.name} is ${options.join(' or ')}, never “${value.option}”.`);
  }
  return null;
};
