import type { Status } from '../answer/verdict.ts';
import { list, withArticle } from '../plain/text.ts';

interface Said {
  readonly honest: readonly { readonly text: string }[];
  readonly claim: Status | null;
}

/** Why one may stop. `claimed`: whether anything is; `left`: whether any check is still to be made; `nameable`: whether any name of the atlas could ever stand. */
export const stopSentence = ({
  claimed,
  left,
  nameable,
}: {
  readonly claimed: boolean;
  readonly left: boolean;
  readonly nameable: boolean;
}): string => {
  if (!left) return 'You may stop: all there is to look at has been looked at or set aside.';
  if (!nameable) return 'You may stop: whatever you look at, no name can stand yet. The atlas lists the whole core of no model.';
  return `You may stop: no check still to be made could change the honest name${claimed ? ' or the claim' : ''}.`;
};

/** What looking on could still come to: `Looking further could still make it Merrowby Petrel 11 Cartridge.` */
export const goOnSentence = (now: Said, then: Said): string => {
  const texts = then.honest.map(({ text }) => (/^(core|pattern part core)\b/.test(text) ? withArticle(text) : text));
  if (then.honest.map(({ text }) => text).join('|') !== now.honest.map(({ text }) => text).join('|'))
    return `Looking further could still make it ${list(texts, 'or')}.`;
  return then.claim === 'ruled out'
    ? 'Looking further could still rule out the claim.'
    : 'Looking further could still show that the claim stands.';
};

/** @param judged ways the checks could still read for which the verdict was asked */
export const notSettledSentence = (judged: number): string =>
  judged === 0
    ? 'Whether you may stop is not settled: no way the checks could still read was tried.'
    : `Whether you may stop is not settled: ${judged === 1 ? 'the one way' : `none of ${judged} ways`} the checks could still read ${judged === 1 ? 'that was tried did not change' : 'changed'} the honest name or the claim, and others are left.`;
