import { checkParts } from './pack/check-parts.ts';
import type { Chapter, SheetDraft } from './pack/draft.ts';
import { allowedTable, factsTable, partsTable } from './pack/write-tables.ts';
import { counterSheets } from './sheets/counter.ts';
import { journalCoreSheets } from './sheets/journal-cores.ts';
import { lookingAt } from './sheets/look.ts';
import { planSheets } from './sheets/plans.ts';
import { plateSheets } from './sheets/plates.ts';
import { strangerSheets } from './sheets/strangers.ts';
import { drawings } from './vocabulary/drawings.ts';
import { features } from './vocabulary/features.ts';
import { instruments } from './vocabulary/instruments.ts';
import { joints } from './vocabulary/joints.ts';
import { ports } from './vocabulary/ports.ts';
import { chains, metals, operations, warmth } from './vocabulary/shop.ts';
import { slots } from './vocabulary/slots.ts';
import { sources } from './vocabulary/sources.ts';
import { stages } from './vocabulary/stages.ts';
import { makeMerrowby } from './world/merrowby/chapter.ts';
import { makeOsterhal } from './world/osterhal/chapter.ts';
import { makeBreakwater } from './world/patterns/breakwater.ts';
import { makeFerrygate } from './world/patterns/ferrygate.ts';
import { makeNorthquay } from './world/patterns/northquay.ts';
import { makeSlipway } from './world/patterns/slipway.ts';
import { ratesOf } from './world/rates.ts';
import { makeTarnwick } from './world/tarnwick/chapter.ts';
import { makeVeldmark } from './world/veldmark/chapter.ts';

const head = {
  format: 'kinplate atlas pack',
  version: 1,
  id: 'saltmarsh-demo',
  title: 'Saltmarsh demo atlas',
  edition: '2026-11-28.3',
  invented: true,
  note: 'Every maker, name and figure in this pack is invented.',
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
  const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
  return new Map([
    ['pack.json', json(head)],
    ['sources.json', json(sources)],
    ['stages.json', json(stages)],
    ['slots.json', json(slots)],
    ['ports.json', json(ports)],
    ['features.json', json(features)],
    ['joints.json', json(joints)],
    ['makers.json', json(all('makers'))],
    ['families.json', json(all('families'))],
    ['generations.json', json(all('generations'))],
    ['models.json', json(models)],
    ['metals.json', json(metals)],
    ['operations.json', json(operations)],
    ['chains.json', json(chains)],
    ['warmth.json', json(warmth)],
    ['rates.json', json(ratesOf(parts))],
    ['instruments.json', json(instruments)],
    ['drawings.json', json(drawings)],
    ['parts.csv', partsTable(parts)],
    ['facts.csv', factsTable(parts, features)],
    ['allowed.csv', allowedTable(all('allowed'), models, slots, parts)],
    ...demoSheets(chapters).map((sheet): [string, string] => [`sheets/${sheet.id}.json`, json(sheet)]),
  ]);
};
