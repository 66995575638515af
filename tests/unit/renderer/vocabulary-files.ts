import { readFileSync } from 'node:fs';
import type { Feature, Stage } from '../../../reasoner/index.ts';

const read = (file: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../seed-data/vocabulary/${file}.json`, import.meta.url), 'utf8'));

/** The vocabulary of the trade as it lies in its files, in their order. */
export const features = read('features') as readonly Feature[];
export const stages = read('stages') as readonly Stage[];
