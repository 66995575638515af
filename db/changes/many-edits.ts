import type { Atlas, Fact, FeatureId, MakerId, Part, PartId, SourceId } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import type { Edit } from '../edits/seen.ts';

/** What is said of several parts at once. `fact: null`: nothing is said of the feature any more. */
export type SaidOfMany =
  | { readonly of: 'feature'; readonly feature: FeatureId; readonly fact: Fact | null }
  | { readonly of: 'maker'; readonly maker: MakerId | null }
  | { readonly of: 'source'; readonly source: SourceId };

/** The edits that say it of each of these parts, and of those alone that do not say it already. A fact that is altered has the part's source again. */
export const manyEdits = (atlas: Atlas, parts: readonly PartId[], said: SaidOfMany): readonly Edit[] => {
  const wanted = new Set(parts);
  return atlas.parts.flatMap((part): readonly Edit[] => {
    if (!wanted.has(part.id)) return [];
    const put = withSaid(part, said);
    return sameValue(put, part) ? [] : [{ list: 'parts', put: { ...put } }];
  });
};

const withSaid = (part: Part, said: SaidOfMany): Part => {
  switch (said.of) {
    case 'maker':
      return { ...part, maker: said.maker };
    case 'source':
      return { ...part, source: said.source };
    case 'feature': {
      const { [said.feature]: before, ...facts } = part.facts;
      if (said.fact !== null && sameValue(before, said.fact)) return part;
      const { factSources = {}, ...rest } = part;
      const { [said.feature]: _source, ...sources } = factSources as Readonly<Record<FeatureId, SourceId>>;
      return {
        ...rest,
        facts: said.fact === null ? facts : { ...part.facts, [said.feature]: said.fact },
        ...(Object.keys(sources).length === 0 ? {} : { factSources: sources }),
      };
    }
  }
};
