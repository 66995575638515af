import type { Feature, FeatureId, Part } from '../../../reasoner/index.ts';
import { mmPerInch } from '../../../reasoner/plain/units.ts';
import type { Ground } from './ground.ts';

/** One figure of a feature, as a part is said to be made to. */
export interface Size {
  readonly part: Part;
  readonly nominal: number;
}

/** What the size of a part is held against: its figure among those of the parts it belongs with. */
export interface Among {
  readonly feature: Feature;
  readonly part: Part;
  readonly nominal: number;
  /** What it is made to the pattern of, or took the place of, where that has the figure. */
  readonly kin: readonly (Size & { readonly as: 'is made to the pattern of' | 'took the place of' })[];
  /** Of its family, the largest of them, the part itself included, by size; of its slot where it is in none. */
  readonly group: readonly Size[];
  readonly of: 'family' | 'slot';
}

const kept = new WeakMap<Ground, readonly Among[]>();

/** Every measure of the pack's parts with what it is held against, in the order of the pack. Figures of nothing, or below, are held against none. */
export const sizesAmong = (ground: Ground): readonly Among[] => {
  const before = kept.get(ground);
  if (before !== undefined) return before;
  const all = new Map<FeatureId, Size[]>();
  const inFamily = new Map<string, Size[]>();
  const add = <K>(map: Map<K, Size[]>, key: K, size: Size): void => {
    const list = map.get(key);
    if (list === undefined) map.set(key, [size]);
    else list.push(size);
  };
  for (const part of ground.parts)
    for (const [feature, nominal] of measuresOf(part)) {
      add(all, feature, { part, nominal });
      for (const family of ground.familiesOf(part.id)) add(inFamily, `${family} ${feature}`, { part, nominal });
    }
  for (const map of [all, inFamily]) for (const sizes of map.values()) sizes.sort((a, b) => a.nominal - b.nominal);
  const made = ground.own.flatMap((part) =>
    measuresOf(part).flatMap(([id, nominal]): Among[] => {
      const feature = ground.features.get(id);
      if (feature === undefined) return [];
      const kin = (
        [
          [part.patternOf, 'is made to the pattern of'],
          [part.supersedes, 'took the place of'],
        ] as const
      ).flatMap(([other, as]): Among['kin'][number][] => {
        const found = other === undefined ? undefined : ground.part(other);
        const size = found === undefined ? undefined : nominalOf(found, id);
        return found === undefined || size === undefined ? [] : [{ part: found, nominal: size, as }];
      });
      const families = [...ground.familiesOf(part.id)].map((family) => inFamily.get(`${family} ${id}`) ?? []);
      const group = families.reduce((most, sizes) => (sizes.length > most.length ? sizes : most), [] as readonly Size[]);
      const of = group.length > 3 ? 'family' : 'slot';
      return [{ feature, part, nominal, kin, group: of === 'family' ? group : (all.get(id) ?? []), of }];
    }),
  );
  kept.set(ground, made);
  return made;
};

const nominalOf = (part: Part, feature: FeatureId): number | undefined => {
  const fact = part.facts[feature];
  return fact?.kind === 'measure' && fact.nominal > 0 ? fact.nominal : undefined;
};

const measuresOf = (part: Part): readonly (readonly [FeatureId, number])[] =>
  (Object.keys(part.facts) as FeatureId[]).flatMap((feature) => {
    const nominal = nominalOf(part, feature);
    return nominal === undefined ? [] : [[feature, nominal] as const];
  });

/** What may have been meant by a size, and how it came to be written so. */
export interface Slip {
  readonly meant: number;
  readonly how: string;
}

/** A size may be so many times what was meant: written in inches, in millimetres where inches belong, or with its decimal point moved. Common practice of the counter, no source. */
const scales: readonly (readonly [times: number, how: string, lengthsOnly: boolean])[] = [
  [mmPerInch, 'it was written in inches', true],
  [1 / mmPerInch, 'it was turned from inches into millimetres twice', true],
  [10, 'the decimal point slipped', false],
  [1 / 10, 'the decimal point slipped', false],
  [100, 'the decimal point slipped', false],
  [1 / 100, 'the decimal point slipped', false],
  [1000, 'the decimal point slipped', false],
  [1 / 1000, 'the decimal point slipped', false],
];

/** Sizes that would do in place of one, each with the slip that led from it to this one, likeliest first. */
export const meantBy = (nominal: number, { unit }: Feature): readonly Slip[] => [
  ...scales
    .filter(([, , lengthsOnly]) => !lengthsOnly || unit !== 'deg')
    .map(([times, how]) => ({ meant: Number((nominal * times).toPrecision(6)), how })),
  ...swapped(nominal),
];

/** Two neighbouring figures in the other order, of a size of three figures or more: among shorter ones 12 and 21 are as likely both meant. */
export const swapped = (nominal: number): readonly Slip[] => {
  const text = String(nominal);
  if (text.replace(/\D/g, '').length < 3) return [];
  return [...text].flatMap((figure, at) => {
    const next = text[at + 1] === '.' ? at + 2 : at + 1;
    const other = text[next];
    if (!/\d/.test(figure) || other === undefined || other === figure) return [];
    const signs = [...text];
    [signs[at], signs[next]] = [other, figure];
    return [{ meant: Number(signs.join('')), how: 'two figures are swapped' }];
  });
};

/** Without what binary arithmetic adds behind the twelfth figure. */
export const decimal = (size: number): number => Number(size.toPrecision(12));
