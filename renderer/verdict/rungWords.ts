import type { Rung } from '../../reasoner/index.ts';

/** What kind of name each is, as it is said beside it. */
export const rungWords: Readonly<Record<Rung, string>> = {
  model: 'the whole unit, as a model',
  'model with options': 'a model with catalogued options',
  'model with service parts replaced': 'a model, saying nothing of its service parts',
  'all parts': 'every part is one model’s; the plate does not say so',
  hybrid: 'a hybrid: a named core with another housing',
  core: 'the core only; the housings name nothing',
  family: 'the family only',
  'pattern core': 'a pattern core, no maker’s name',
  'pattern family': 'a pattern core after a family, no maker’s name',
  'family parts': 'parts of one family, of no one model',
  parts: 'no name',
};
