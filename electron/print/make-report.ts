import type { Outcome, Store } from '../../db/index.ts';
import { answer, type CompiledAtlas, type Report, reportOf, type Sheet } from '../../reasoner/index.ts';
import { refusal, well } from '../bridge/reply.ts';
import { caseOf } from './case-of.ts';

/** The report on a sheet that was held against the atlas already, with what the shop knows of its case. `now` is the host's clock, since the reasoner has none; `story`: whether the shop's private note is printed too. */
export const makeReport = async (
  store: Store,
  atlas: CompiledAtlas,
  sheet: Sheet,
  { now, story }: { readonly now: Date; readonly story: boolean },
): Promise<Outcome<Report>> => {
  if (sheet.kind !== 'found')
    return refusal('not-a-found-unit', 'kind', 'A report is on a found unit. A planned build has its build sheet, under Build.');
  const packs = await store.packs.list();
  if (!packs.ok) return packs;
  const facts = await caseOf(store, sheet);
  if (!facts.ok) return facts;
  const settings = await store.settings.all();
  if (!settings.ok) return settings;
  const { name, lines, logo } = settings.value.letterhead.value;
  return well({
    ...reportOf({
      atlas,
      sheet,
      answer: answer(atlas, sheet),
      ...(facts.value === null ? {} : { facts: facts.value }),
      story,
      making: { on: dayOf(now), invented: packs.value.some(({ invented }) => invented) },
    }),
    ...(name === '' && logo === null
      ? {}
      : { letterhead: { name, lines, logo: logo === null ? null : { file: logo.file, width: logo.width, height: logo.height } } }),
  });
};

/** The day by the shop's own clock, `YYYY-MM-DD`. */
export const dayOf = (time: Date): string =>
  [time.getFullYear(), time.getMonth() + 1, time.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
