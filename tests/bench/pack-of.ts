import { emptyAtlas, type Pack } from '../../db/atlas/pack.ts';
import type { Atlas } from '../../reasoner/index.ts';

/** An atlas as one pack. Copies of a model share its name, which is a fault only where a grammar would read it. */
export const packOf = ({ edition: _edition, ...lists }: Atlas): Pack => ({
  ...emptyLists,
  ...lists,
  head: {
    format: 'kinplate atlas pack',
    version: 1,
    id: 'bench',
    title: 'Bench',
    edition: '2026-03-02',
    invented: true,
    note: 'Invented.',
  },
  makers: lists.makers.map((maker) => ({ ...maker, grammar: null })),
  models: lists.models.map(({ allowed: _allowed, ...model }) => model),
  allowed: lists.models.flatMap(({ id, allowed }) => allowed.map((row) => ({ model: id, ...row }))),
  sheets: [],
});

const { edition: _none, ...emptyLists } = emptyAtlas as Required<Atlas>;
