import type { Asked } from '../../read/asked.ts';
import { warningsOf } from '../check-models.ts';
import type { FilesRead } from '../read.ts';
import type { Warning } from '../warnings.ts';
import { alikeParts } from './alike-parts.ts';
import { type Finding, groundOf } from './ground.ts';
import { oddDeviations } from './odd-deviations.ts';
import { outlyingSizes } from './outlying-sizes.ts';
import { readByAnother } from './read-by-another.ts';
import { sharedNames } from './shared-names.ts';
import { sharedNumbers } from './shared-numbers.ts';
import { slippedSizes } from './slipped-sizes.ts';
import { unbuildableModels } from './unbuildable-models.ts';
import { unmeasuredJoints } from './unmeasured-joints.ts';

/** Slots a model says nothing of, families no slot names, figures without a range. */
const lists: Finding = {
  about: 'lists',
  rests: ['models.json', 'families.json', 'makers.json', 'slots.json', 'features.json', 'allowed.csv'],
  find: ({ read }) => warningsOf(read.lists, read.placeOf),
};

/** Every rule by which a sound pack may yet not be meant, in the order they are told. A new one is a file of this folder and a line here. */
export const findings: readonly Finding[] = [
  slippedSizes,
  outlyingSizes,
  oddDeviations,
  unbuildableModels,
  lists,
  sharedNames,
  sharedNumbers,
  readByAnother,
  alikeParts,
  unmeasuredJoints,
];

/** What a check of a pack warns of, each with the rule it is by. Where what is beside the pack could not be found out, nothing. */
export const warningsIn = (read: FilesRead, asked: Asked): readonly (Warning & { readonly about: string })[] => {
  if (!read.besideKnown) return [];
  const ground = groundOf(read, asked);
  return findings
    .filter(({ rests }) => rests.every((file) => !read.faults.isBroken(file)))
    .flatMap(({ about, find }) => [...find(ground)].map((one) => ({ ...one, about })));
};
