import type { FeatureId } from '../../reasoner/index.ts';
import type { Words } from '../bridge/words.ts';
import { asId } from '../route/asId.ts';
import { isAt, type Json, type JsonObject, type Path } from './json.ts';

export interface FieldChoice {
  readonly id: string;
  readonly name: string;
}

const at = (value: Json | undefined, path: Path): Json | undefined =>
  path.reduce<Json | undefined>((of, step) => (typeof of === 'object' && of !== null ? (of as JsonObject)[step] : undefined), value);

/** Where the word for an option stands, and how many steps before it what holds the feature. */
const ofFeature: readonly (readonly [list: string, way: string, back: number])[] = [
  ['operations', 'takes * anyOf *', 2],
  ['operations', 'does offers * anyOf *', 2],
  ['makers', 'grammar tokens * promises * of * *', 3],
];

/**
 * What can stand at a place of an entry that no list of the atlas holds: options of the feature named beside it, options of the entry itself, words of its grammar. Null where
 * anything can.
 */
export const choicesAt = (words: Words, list: string, entry: JsonObject, path: Path): readonly FieldChoice[] | null => {
  for (const [of, way, back] of ofFeature) {
    if (of !== list || !isAt(path, way.split(' '))) continue;
    const feature = at(entry, [...path.slice(0, -back), 'feature']);
    return typeof feature === 'string' ? (words.feature(asId<FeatureId>(feature))?.options ?? null) : null;
  }
  if (list === 'features' && isAt(path, ['remarks', '*', 'value', 'option'])) return named(entry.options);
  if (list === 'makers' && ['when', 'then'].some((side) => isAt(path, ['grammar', 'demands', '*', side, 'token'])))
    return named(at(entry, ['grammar', 'tokens']));
  return null;
};

const named = (of: Json | undefined): readonly FieldChoice[] =>
  Array.isArray(of) ? (of as readonly JsonObject[]).map(({ id, name }) => ({ id: String(id ?? ''), name: String(name || id) })) : [];
