import type { Atlas, Sheet } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';

/** The same elements in an order drawn from a seed (Fisher–Yates). */
export const shuffled = <T>(list: readonly T[], dice: Dice): T[] => {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = dice.whole(0, i);
    [out[i], out[j]] = [out[j] as T, out[i] as T];
  }
  return out;
};

/** The same atlas and sheet with every list whose order carries no meaning in another order. */
export const reordered = (atlas: Atlas, sheet: Sheet, seed: number): { atlas: Atlas; sheet: Sheet } => {
  const dice = new Dice(seed);
  return {
    atlas: {
      ...atlas,
      features: shuffled(atlas.features, dice),
      ports: shuffled(atlas.ports, dice),
      joints: shuffled(atlas.joints, dice),
      makers: shuffled(atlas.makers, dice),
      families: shuffled(atlas.families, dice),
      models: shuffled(atlas.models, dice).map((model) => ({ ...model, allowed: shuffled(model.allowed, dice) })),
      parts: shuffled(atlas.parts, dice),
    },
    sheet: { ...sheet, observations: shuffled(sheet.observations, dice), absent: shuffled(sheet.absent, dice) },
  };
};

/**
 * The same data with every id of the made-up atlases (`slot-2`, `slot-2-part-0`, `model-3`, …) spelt otherwise,
 * so that neither their text nor their alphabetical order is what it was. `back` undoes it in any text.
 */
export const respelt = (atlas: Atlas, sheet: Sheet): { atlas: Atlas; sheet: Sheet; back: (text: string) => string } => {
  const words = /\b(slot|stage|port|joint|maker|family|model|seen)-(\d+)/g;
  const spelt = (text: string) => text.replace(words, (_, word: string, number: string) => `${reversed(word)}~${9 - Number(number)}`);
  const back = (text: string) =>
    text.replace(/\b([a-z]+)~(-?\d+)/g, (_, word: string, number: string) => `${reversed(word)}-${9 - Number(number)}`);
  const through = <T>(value: T): T => JSON.parse(spelt(JSON.stringify(value))) as T;
  return { atlas: through(atlas), sheet: through(sheet), back };
};

const reversed = (word: string): string => [...word].reverse().join('');
