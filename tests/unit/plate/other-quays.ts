import {
  type Atlas,
  asId,
  type CompiledAtlas,
  compileAtlas,
  type Maker,
  type Model,
  type NumberPattern,
  type Part,
} from '../../../reasoner/index.ts';
import { quayAtlas } from './quay-atlas.ts';

/** The quay with something of it otherwise: the change of a maker, a model or a part, by id; or of lists of the atlas. */
export interface Otherwise {
  readonly makers?: Readonly<Record<string, Partial<Maker>>>;
  readonly models?: Readonly<Record<string, Partial<Model>>>;
  readonly parts?: Readonly<Record<string, Partial<Part>>>;
  readonly more?: (atlas: Atlas) => Partial<Atlas>;
}

const changed = <T extends { readonly id: string }>(all: readonly T[], changes: Readonly<Record<string, Partial<T>>> = {}): T[] => {
  for (const id of Object.keys(changes)) if (!all.some((one) => one.id === id)) throw new Error(`the quay has no ${id}`);
  return all.map((one) => ({ ...one, ...changes[one.id] }));
};

export const quayBut = ({ makers, models, parts, more }: Otherwise): CompiledAtlas => {
  const atlas: Atlas = {
    ...quayAtlas,
    makers: changed(quayAtlas.makers, makers),
    models: changed(quayAtlas.models, models),
    parts: changed(quayAtlas.parts, parts),
  };
  return compileAtlas({ ...atlas, ...more?.(atlas) });
};

export const makerOf = (id: string): Maker => quayAtlas.makers.find((maker) => String(maker.id) === id) as Maker;
export const partOf = (id: string): Part => quayAtlas.parts.find((part) => String(part.id) === id) as Part;
export const modelOf = (id: string): Model => quayAtlas.models.find((model) => String(model.id) === id) as Model;

/** Fixed letters and a running number. */
export const lettered = (says: NumberPattern['says'], text: string, count: number, from: number | null = null, to: number | null = null) =>
  ({
    id: `${says} ${text}`,
    name: says,
    says,
    from,
    to,
    pieces: [
      { before: '', kind: 'fixed', text },
      { before: ' ', kind: 'digits', name: 'running number', count },
    ],
  }) satisfies NumberPattern;

/** The quay without plates. */
export const plateless: Atlas = {
  ...quayAtlas,
  slots: quayAtlas.slots.filter(({ group }) => group !== 'plate'),
  ports: quayAtlas.ports.filter(({ slot }) => slot !== asId('plate')),
  features: quayAtlas.features.filter(({ slot }) => slot !== asId('plate')),
  joints: quayAtlas.joints.filter(({ id }) => id !== asId('rivets')),
  parts: quayAtlas.parts.filter(({ slot }) => slot !== asId('plate')),
  models: quayAtlas.models.map((model) => ({ ...model, allowed: model.allowed.filter(({ slot }) => slot !== asId('plate')) })),
};
