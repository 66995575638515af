import { type CompiledAtlas, type Key, type KeyAsked, keyOf } from '../../reasoner/index.ts';
import type { Reply } from '../bridge/contract.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import { faultOfStages } from './apart.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Identification keys. */
export const keyCalls = (kept: KeptAtlas): Calls<'key'> => ({
  'key.of': async (asked) => keyAnswer(await kept.now(), asked),
});

/** The key, or what of the asking the atlas does not have. */
export const keyAnswer = (atlas: CompiledAtlas, asked: KeyAsked): Reply<'key.of'> => {
  const family = asked.families?.find((id) => !atlas.families.has(id));
  if (family !== undefined) return refusal('not-found', 'families', `The atlas has no family “${family}”.`);
  const model = Object.keys(asked.odds ?? {}).find((id) => !atlas.data.models.some((one) => one.id === id));
  if (model !== undefined) return refusal('not-found', 'odds', `The atlas has no model “${model}”.`);
  const fault = faultOfStages(atlas, asked.scope.stages);
  if (fault !== null) return fault;
  const key: Key | null = keyOf(atlas, asked);
  return key === null
    ? refusal('nothing-to-key', 'families', 'No model of the atlas is among these families, so there is nothing to make a key to.')
    : well(key);
};
