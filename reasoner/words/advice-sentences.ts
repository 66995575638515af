import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';

/** What follows where an entry reads the same again, to stand after "if it reads the same". */
export const youMayStop = 'you may stop';
export const asItIs = 'the verdict stays as it is';
export const lookAgainToo = (slot: CompiledSlot, feature: Feature): string =>
  `look again at the ${feature.name} of the ${slot.data.name} too`;

/** @param towards what looking on could still come to, a whole sentence that begins so */
export const togetherSentence = (towards: string): string => `By itself it settles nothing. ${towards}`;

export const doubtSentence = (slot: CompiledSlot, feature: Feature): string =>
  `One entry may well be wrong: look again at the ${feature.name} of the ${slot.data.name}.`;

export const nothingMoreSentence = 'Nothing still to be looked at would tell more about the name.';
