import type { Feature } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';
import { compressorEndFeatures } from './compressor-end.ts';
import { coreFeatures } from './core.ts';
import { turbineEndFeatures } from './turbine-end.ts';

export const features: readonly Plain<Feature>[] = [...compressorEndFeatures, ...coreFeatures, ...turbineEndFeatures];
