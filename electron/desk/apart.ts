import {
  type ApartTrouble,
  type CompiledAtlas,
  fewestSubjects,
  mostSubjects,
  type Part,
  type StageId,
  tellApart,
} from '../../reasoner/index.ts';
import type { Trouble } from '../bridge/contract.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Telling families, models and parts apart. */
export const apartCalls = (kept: KeptAtlas): Calls<'apart'> => ({
  'apart.of': async ({ subjects, scope }) => {
    const atlas = await kept.now();
    const fault = faultOfStages(atlas, scope.stages);
    if (fault !== null) return fault;
    const answer = tellApart(atlas, subjects, scope);
    return answer.kind === 'apart' ? well(answer) : said(answer);
  },
  'apart.parts': async ({ parts }) => {
    const atlas = await kept.now();
    const missing = parts.find((id) => !atlas.parts.has(id));
    if (missing !== undefined) return refusal('not-found', 'parts', `“${missing}” is no part of the atlas.`);
    return well(
      parts.map((id) => {
        const { name, slot, facts } = atlas.parts.get(id) as Part;
        return { id, name, slot, facts };
      }),
    );
  },
});

/** A stage the atlas does not have is a mistake of the asker, not a stage at which nothing is seen. */
export const faultOfStages = (
  atlas: CompiledAtlas,
  stages: readonly StageId[] | undefined,
): { readonly ok: false; readonly trouble: Trouble } | null => {
  const unknown = stages?.find((stage) => !atlas.stages.has(stage));
  return unknown === undefined ? null : refusal('not-found', 'scope.stages', `“${unknown}” is no strip-down stage of the atlas.`);
};

const said = (answer: ApartTrouble) => {
  switch (answer.kind) {
    case 'no such subject':
      return refusal('not-found', 'subjects', `The atlas has no ${answer.ref.kind} “${answer.ref.id}”.`);
    case 'too few or too many':
      return refusal(
        'subject-count',
        'subjects',
        `${fewestSubjects} to ${mostSubjects} families, models or parts can be told apart, each named once; found ${answer.found}.`,
      );
    case 'not comparable':
      return refusal('not-comparable', 'subjects', answer.sentence);
  }
};
