import { fileURLToPath } from 'node:url';
import { openAtlas } from '../../../../electron/desk/open-house.ts';
import {
  type Atlas,
  answer,
  asId,
  type CompiledAtlas,
  compileAtlas,
  explain,
  type Feature,
  type FeatureId,
  type NameAnswer,
  type Observation,
  type Rung,
  type Seen,
  type Sheet,
  type Verdict,
} from '../../../../reasoner/index.ts';

const demoPack = fileURLToPath(new URL('../../../../seed-data/demo-pack', import.meta.url));

/** What somebody says of a feature at the counter: a count, letters or null for none, a choice, a presence, or a measure with its u. */
type Said = number | string | boolean | null | readonly [value: number, u: number];

/**
 * The shop's counter over the demo atlas: units are made up of what was seen on them, in the features' own words.
 * The trade facts themselves are common practice, no source; makers, names and figures are the demo pack's own inventions.
 */
export class Counter {
  readonly atlas: Atlas;
  readonly compiled: CompiledAtlas;
  readonly #features: ReadonlyMap<string, Feature>;

  private constructor(atlas: Atlas) {
    this.atlas = atlas;
    this.compiled = compileAtlas(atlas);
    this.#features = new Map(atlas.features.map((feature) => [feature.id, feature]));
  }

  static async open(): Promise<Counter> {
    const opened = await openAtlas(':memory:');
    if (!opened.ok) throw new Error(opened.trouble.sentence);
    const store = opened.value;
    const loaded = await store.packs.load(demoPack);
    if (!loaded.ok) throw new Error(loaded.trouble.sentence);
    const atlas = await store.atlas.read();
    await store.close();
    return new Counter(atlas);
  }

  /** A found unit with these observations, all seen or measured. */
  unit(seen: Readonly<Record<string, Said>>, more: Partial<Pick<Sheet, 'claimed' | 'claimedMaker' | 'absent'>> = {}): Sheet {
    return {
      id: asId('unit'),
      title: '',
      story: '',
      kind: 'found',
      claimed: null,
      claimedMaker: null,
      absent: [],
      chosen: {},
      observations: Object.entries(seen).map(([feature, said]) => this.#observation(feature, said)),
      ...more,
    };
  }

  verdict(unit: Sheet): Verdict {
    const found = answer(this.compiled, unit, { explain: 'none' });
    if (found.kind !== 'verdict') throw new Error('this unit contradicts itself');
    return found;
  }

  /** Why a name is ruled out: its conflicts and swap sets, all of them. */
  why(unit: Sheet, rung: Rung, model: string): NameAnswer {
    return explain(this.compiled, unit, nameOf(this.verdict(unit), rung, model).name.id);
  }

  /** The models of these families, by their ids. */
  models(...families: readonly string[]): readonly string[] {
    return this.atlas.models.filter((model) => families.includes(model.family)).map((model) => model.id);
  }

  #observation(id: string, said: Said): Observation {
    const feature = this.#features.get(id);
    if (feature === undefined) throw new Error(`the demo atlas has no feature ${id}`);
    return {
      id: asId(id),
      slot: feature.slot,
      feature: asId<FeatureId>(id),
      value: seenAs(feature, said),
      sure: Array.isArray(said) ? { kind: 'measured', u: said[1] as number } : { kind: 'seen' },
    };
  }
}

const seenAs = (feature: Feature, said: Said): Seen => {
  switch (feature.kind) {
    case 'count':
      if (typeof said === 'number') return { kind: 'count', from: said, to: said };
      break;
    case 'measure':
      if (Array.isArray(said)) return { kind: 'measure', value: said[0] as number };
      break;
    case 'choice':
      if (typeof said === 'string' && feature.options?.some((option) => option.id === said)) return { kind: 'choice', option: said };
      break;
    case 'presence':
      if (typeof said === 'boolean') return { kind: 'presence', present: said };
      break;
    case 'mark':
      if (typeof said === 'string' || said === null) return { kind: 'mark', text: said };
      break;
  }
  throw new Error(`${feature.id} is a ${feature.kind}; it cannot be ${JSON.stringify(said)}`);
};

/** The answer for one model on one rung. */
export const nameOf = (verdict: Verdict, rung: Rung, model: string): NameAnswer => {
  const found = verdict.names.find(({ name }) => name.rung === rung && name.models.some((id) => id === model));
  if (found === undefined) throw new Error(`the verdict has no ${rung} of ${model}`);
  return found;
};

/** Every name that speaks of one of these models, on any rung. */
export const namesOf = (verdict: Verdict, models: readonly string[]): readonly NameAnswer[] =>
  verdict.names.filter(({ name }) => name.models.some((id) => models.includes(id)));

/** The names of one family, whole or core. */
export const familyNames = (verdict: Verdict, family: string): readonly NameAnswer[] =>
  verdict.names.filter(({ name }) => name.rung === 'family' && name.family === family);

export const candidatesIn = (verdict: Verdict, slot: string): readonly string[] =>
  verdict.slots.find((answered) => answered.slot === slot)?.candidates ?? [];
