import type { Part } from '../../../reasoner/index.ts';
import { bare } from '../../../reasoner/plain/letters.ts';
import { warning } from '../warnings.ts';
import type { Finding } from './ground.ts';
import { fewNames } from './ground.ts';

/**
 * Parts of one maker that were sold under one number, however it is spaced. Those of one line of supersession may: a number outlives a part. Of parts
 * without a maker nobody says whose number it is.
 */
export const sharedNumbers: Finding = {
  about: 'shared number',
  rests: ['parts.csv'],
  find: function* ({ parts, isOwn, lineOf, maker, slotName, at }) {
    const by = new Map<string, { readonly number: string; readonly parts: Set<Part> }>();
    for (const part of parts) {
      if (part.maker === null) continue;
      for (const number of new Set(part.numbers)) {
        const key = `${part.maker} ${bare(number) || number}`;
        const of = by.get(key);
        if (of === undefined) by.set(key, { number, parts: new Set([part]) });
        else of.parts.add(part);
      }
    }
    for (const { number, parts: all } of by.values()) {
      if (all.size < 2) continue;
      const sharing = [...all];
      const [own] = sharing.filter(isOwn);
      if (own === undefined || new Set(sharing.map(lineOf)).size < 2) continue;
      const slots = [...new Set(sharing.map(({ slot }) => slotName(slot)))];
      yield warning(
        at.part(own.id, 'numbers'),
        `the number ${JSON.stringify(number)} of ${maker(own.maker ?? '')?.name ?? own.maker} stands at ${sharing.length} parts, none of which took the place of another: ${fewNames(sharing.map(({ id }) => id))}`,
        slots.length > 1
          ? `Whoever looks it up finds a ${slots.join(' and a ')}.`
          : 'Whoever looks it up is shown all of them, and a number found on one speaks for none.',
        { likely: 'If one took the place of another, supersedes says so.' },
      );
    }
  },
};
