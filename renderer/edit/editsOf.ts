import type { Edit } from '../../db/answers.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { asId } from '../route/asId.ts';
import type { Sits } from './drafts.ts';
import type { JsonObject } from './json.ts';

/** What somebody would have to make so that the entry says what is typed: nothing where it says so already. */
export const editsOf = (
  list: string,
  before: { readonly entry: JsonObject; readonly sits: readonly Sits[] } | null,
  now: { readonly entry: JsonObject; readonly sits: readonly Sits[] },
): readonly Edit[] => {
  const put: readonly Edit[] =
    before !== null && sameValue(before.entry, now.entry) ? [] : [{ list, put: now.entry as { [field: string]: unknown } }];
  const model = asId<never>(String(now.entry.id));
  const were = before?.sits ?? [];
  const gone = were.flatMap(({ part }): readonly Edit[] =>
    now.sits.some((one) => one.part === part) ? [] : [{ disallow: { model, part: asId(part) } }],
  );
  const there = now.sits.flatMap(({ slot, part, role }): readonly Edit[] => {
    const was = were.find((one) => one.part === part);
    return was?.role === role && was.slot === slot ? [] : [{ allow: { model, part: asId(part), slot: asId(slot), role } }];
  });
  return [...put, ...gone, ...there];
};
