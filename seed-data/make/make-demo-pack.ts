import { vocabularyId } from './make-vocabulary.ts';
import { checkParts } from './pack/check-parts.ts';
import type { Chapter, SheetDraft } from './pack/draft.ts';
import { packFiles } from './pack/pack-files.ts';
import { allowedTable, factsTable, partsTable } from './pack/write-tables.ts';
import { counterSheets } from './sheets/counter.ts';
import { journalCoreSheets } from './sheets/journal-cores.ts';
import { lookingAt } from './sheets/look.ts';
import { planSheets } from './sheets/plans.ts';
import { plateSheets } from './sheets/plates.ts';
import { strangerSheets } from './sheets/strangers.ts';
import { features } from './vocabulary/features.ts';
import { makeMerrowby } from './world/merrowby/chapter.ts';
import { makeOsterhal } from './world/osterhal/chapter.ts';
import { makeBreakwater } from './world/patterns/breakwater.ts';
import { makeFerrygate } from './world/patterns/ferrygate.ts';
import { makeNorthquay } from './world/patterns/northquay.ts';
import { makeSlipway } from './world/patterns/slipway.ts';
import { ratesOf } from './world/rates.ts';
import { sources } from './world/sources.ts';
import { makeTarnwick } from './world/tarnwick/chapter.ts';
import { makeVeldmark } from './world/veldmark/chapter.ts';

const head = {
  format: 'kinplate atlas pack',
  version: 1,
  id: 'saltmarsh-demo',
  title: 'Saltmarsh demo atlas',
  edition: '2026-11-28.4',
  invented: true,
  note: 'Every maker, name and figure in this pack is invented.',
  leansOn: [vocabularyId],
};

const demoChapters = (): readonly Chapter[] => {
  const merrowby = makeMerrowby();
  const tarnwick = makeTarnwick();
  return [
    merrowby,
    tarnwick,
    makeVeldmark(),
    makeOsterhal(),
    makeFerrygate(merrowby.parts),
    makeSlipway(tarnwick.parts),
    makeNorthquay(merrowby.parts),
    makeBreakwater(merrowby.parts),
  ];
};

const demoSheets = (chapters: readonly Chapter[]): readonly SheetDraft[] => {
  const look = lookingAt(
    chapters.flatMap((chapter) => chapter.parts),
    features,
  );
  return [...counterSheets(look), ...plateSheets(), ...journalCoreSheets(look), ...strangerSheets(look), ...planSheets(chapters)];
};

/** The demo atlas pack as files: path inside the pack's folder, text. The same on every run. Throws on a slip of a maker's. */
export const makeDemoPack = (): Map<string, string> => {
  const chapters = demoChapters();
  const all = <Key extends keyof Chapter>(key: Key) => chapters.flatMap((chapter) => chapter[key] as readonly Chapter[Key][number][]);
  const parts = all('parts');
  const models = all('models');
  checkParts(parts, features);
  return packFiles(head, {
    'sources.json': sources,
    'makers.json': all('makers'),
    'families.json': all('families'),
    'generations.json': all('generations'),
    'models.json': models,
    'rates.json': ratesOf(parts),
    'parts.csv': partsTable(parts),
    'facts.csv': factsTable(parts),
    'allowed.csv': allowedTable(all('allowed'), models, parts),
    ...Object.fromEntries(demoSheets(chapters).map((sheet) => [`sheets/${sheet.id}.json`, sheet])),
  });
};
