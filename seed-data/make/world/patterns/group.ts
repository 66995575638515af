import type { Chapter, ModelDraft } from '../../pack/draft.ts';
import type { Shelf } from '../../pack/shelf.ts';

/** A workshop known only by what it makes; the trade calls it after where its work turns up. */
export interface Group {
  readonly id: string;
  readonly name: string;
  readonly from: number;
  readonly patternOf: string;
  readonly about: string;
}

export const modelOf = (group: Group, size: string, patternOf: string): ModelDraft => ({
  id: `${group.id}-${size}`.toLowerCase(),
  name: `${group.name} ${size}`,
  family: group.id,
  generation: null,
  patternOf,
  from: group.from,
  to: null,
  source: 'saltmarsh-book',
});

export const groupChapter = (group: Group, models: readonly ModelDraft[], shelf: Shelf): Chapter => ({
  makers: [],
  families: [
    {
      id: group.id,
      name: group.name,
      maker: null,
      from: group.from,
      to: null,
      descendsFrom: [],
      succeeds: [],
      patternOf: [group.patternOf],
      about: group.about,
      source: 'saltmarsh-book',
    },
  ],
  generations: [],
  models,
  parts: shelf.parts,
  allowed: shelf.allowed,
});
