import type { Status } from '../answer/verdict.ts';
import { list } from '../plain/text.ts';

interface Said {
  readonly honest: readonly { readonly text: string }[];
  readonly claim: Status | null;
}

export const stopSentence = 'You may stop: no check still to be made could change the honest name or the claim.';

/** What looking on could still come to: `Looking on could still make it Merrowby Petrel 11 Cartridge.` */
export const goOnSentence = (now: Said, then: Said): string => {
  const texts = then.honest.map(({ text }) => text);
  if (texts.join('|') !== now.honest.map(({ text }) => text).join('|')) return `Looking on could still make it ${list(texts, 'or')}.`;
  return then.claim === 'ruled out' ? 'Looking on could still rule out the claim.' : 'Looking on could still show that the claim stands.';
};

/** @param judged ways the checks could still read for which the verdict was asked */
export const notSettledSentence = (judged: number): string =>
  judged === 0
    ? 'Whether you may stop is not settled: no way the checks could still read was tried.'
    : `Whether you may stop is not settled: ${judged === 1 ? 'the one way' : `none of ${judged} ways`} the checks could still read ${judged === 1 ? 'that was tried did not change' : 'changed'} the honest name or the claim, and others are left.`;
