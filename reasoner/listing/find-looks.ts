import type { CompiledAtlas } from '../compile/compiled.ts';
import { sameMark } from '../plain/letters.ts';
import type { Find } from './listing.ts';
import { asFind, type Scored, slotFactor } from './ranked.ts';
import type { Spoken } from './spoken.ts';
import type { Terms } from './terms.ts';
import { firstFrom, placesOf, stemsOf, type Word } from './words.ts';

/** Words that turn what follows into its opposite. */
const without = new Set(['no', 'not', 'without', 'missing', 'lacks', 'lack', 'less']);

/** Choices and presences said by their names: `twin entry`, `no wastegate`. An option of one word counts only where its slot is spoken of. */
export const findLooks = (terms: Terms, text: string, words: readonly Word[], round: Spoken): Find[] => {
  const places = new Map<string, { readonly from: number; readonly to: number; readonly scored: Scored[] }>();
  const add = (at: number, count: number, one: Omit<Scored, 'score'>, weight: number) => {
    const [from, to] = [(words[at] as Word).from, (words[at + count - 1] as Word).to];
    const score = weight * count * slotFactor(round(at), one.feature.slot);
    const place = places.get(`${from}:${to}`) ?? { from, to, scored: [] };
    place.scored.push({ ...one, score });
    places.set(`${from}:${to}`, place);
  };
  for (const { feature, labels } of terms.features) {
    if (feature.kind === 'presence') {
      for (const label of labels) {
        for (const at of placesOf(words, label)) {
          const negated = without.has(words[at - 1]?.stem ?? '') && words[at - 1]?.sentence === words[at]?.sentence;
          const from = negated ? at - 1 : at;
          add(from, at - from + label.length, { feature, value: { kind: 'presence', present: !negated } }, 1);
        }
      }
    }
    for (const option of feature.options ?? []) {
      for (const label of [option.name, ...(option.alsoCalled ?? [])].map(stemsOf)) {
        for (const at of placesOf(words, label)) {
          if (without.has(words[at - 1]?.stem ?? '')) continue;
          if (label.length === 1 && !round(at).has(feature.slot)) continue;
          add(at, label.length, { feature, value: { kind: 'choice', option: option.id } }, 1);
        }
      }
    }
  }
  return [...places.values()].flatMap(
    ({ from, to, scored }) =>
      asFind(
        text,
        from,
        to,
        scored.filter(({ score }) => score > 0.05),
      ) ?? [],
  );
};

/** Letters in quotes are letters on a part: on which is told by the letters themselves, and by the slot spoken of. */
export const findMarks = (atlas: CompiledAtlas, terms: Terms, text: string, words: readonly Word[], round: Spoken): Find[] => {
  const marks = terms.features
    .filter(({ feature }) => feature.kind === 'mark')
    .map(({ feature, labels }) => ({
      feature,
      saidIn: new Set(labels.flatMap((label) => placesOf(words, label)).map((at) => words[at]?.sentence)),
    }));
  return [...text.matchAll(/(?<![\d\p{L}])(?:["“„]([^"“”„\n]{1,60})["”“]|‘([^‘’\n]{1,60})’|«([^«»\n]{1,60})»)/gu)].flatMap((found) => {
    const letters = (found[1] ?? found[2] ?? found[3] ?? '').trim();
    const at = firstFrom(words, found.index);
    if (letters === '' || at === words.length) return [];
    const spoken = round(at);
    const scored = marks.map(({ feature, saidIn }): Scored => {
      const facts = atlas.slots[atlas.slotNumber.get(feature.slot) ?? -1]?.factsOf(feature.id).distinct ?? [];
      const borne = facts.some((fact) => fact.kind === 'mark' && fact.anyOf.some((one) => sameMark(one, letters)));
      const said = saidIn.has(words[at]?.sentence);
      return {
        feature,
        value: { kind: 'mark', text: letters },
        score: (1 + (borne ? 3 : 0) + (said ? 2 : 0)) * slotFactor(spoken, feature.slot),
      };
    });
    return asFind(text, found.index, found.index + found[0].length, scored) ?? [];
  });
};
