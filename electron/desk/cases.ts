import { casesCsv, type Store } from '../../db/index.ts';
import { caseChanges } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Case files: listed, opened as they stand or stood, described, and held against today's atlas. */
export const caseCalls = (store: Store, kept: KeptAtlas): Calls<'cases'> => ({
  'cases.list': (filter) => store.cases.list(filter),
  'cases.open': ({ sheet, asOf }) => store.cases.open(sheet, asOf),
  'cases.describe': ({ sheet, madeAgainst, who, ...details }) => store.cases.describe(sheet, details, madeAgainst, who),
  'cases.say': ({ sheet, word, who, madeAgainst }) => store.cases.say(sheet, word, who, madeAgainst),
  'cases.leave': ({ sheet, ...leaving }) => store.cases.leave(sheet, leaving),
  'cases.word': ({ sheet }) => store.cases.word(sheet),
  'cases.before': ({ sheet }) => store.cases.before(sheet),
  'cases.changes': async ({ sheet, entry }) => {
    const opened = await store.cases.open(sheet, null);
    if (!opened.ok) return opened;
    const then = opened.value.history[entry];
    if (then === undefined) return refusal('not-found', 'entry', `The case ${opened.value.number} has no entry ${entry + 1}.`);
    // Today's atlas may have dropped what was entered then: the door says which, and nothing is compared.
    const before = await store.sheets.check(then.sheet);
    if (!before.ok) return before;
    const now = await store.sheets.open(sheet);
    if (!now.ok) return now;
    const today = await store.sheets.check(now.value);
    return today.ok ? well(caseChanges(await kept.now(), { sheet: before.value, verdict: then.verdict }, today.value)) : today;
  },
  'cases.csv': async (filter) => {
    const cases = await store.cases.list(filter);
    return cases.ok ? well(casesCsv(cases.value)) : cases;
  },
});

/** Photographs of a case. Bytes are base64 on the bridge and nowhere else. */
export const photoCalls = (store: Store): Calls<'photos'> => ({
  'photos.add': ({ sheet, name, data, thumbnail, caption, about }) =>
    store.photos.add(sheet, { name, bytes: Buffer.from(data, 'base64'), thumbnail: Buffer.from(thumbnail, 'base64'), caption, about }),
  'photos.describe': ({ sheet, photo, caption, about, madeAgainst }) => store.photos.describe(sheet, photo, caption, about, madeAgainst),
  'photos.remove': ({ sheet, photo, madeAgainst }) => store.photos.remove(sheet, photo, madeAgainst),
  'photos.read': async ({ photo, which }) => {
    const found = await store.photos.bytes(photo, which);
    return found.ok ? well({ type: found.value.type, data: found.value.bytes.toString('base64') }) : found;
  },
});
