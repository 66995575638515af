import type { Feature } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';
import { compressorEndFeatures } from './compressor-end.ts';
import { coreFeatures } from './core.ts';
import { otherWords } from './other-words.ts';
import { plausibleOf } from './plausible.ts';
import { saidOf } from './said.ts';
import { turbineEndFeatures } from './turbine-end.ts';

/** Every feature with what else the trade calls it; fields stand in the order the pack format writes them. */
export const features: readonly Plain<Feature>[] = [...compressorEndFeatures, ...coreFeatures, ...turbineEndFeatures].map(
  ({ id, slot, name, options, ...rest }) => {
    const { kind, unit, port, remarks, ...more } = rest;
    return {
      id,
      slot,
      name,
      ...otherWords(id),
      kind,
      ...(unit === undefined ? {} : { unit }),
      ...(options === undefined
        ? {}
        : {
            options: options.map(({ id: option, name: called }) => ({
              id: option,
              name: called,
              ...otherWords(`${id}.${option}`),
              ...saidOf({ id, slot, name }, option, called),
            })),
          }),
      ...more,
      ...plausibleOf(id),
      ...(port === undefined ? {} : { port }),
      ...(remarks === undefined ? {} : { remarks }),
    };
  },
);
