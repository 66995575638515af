import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { everyList } from '../../../db/atlas/lists.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { makeDemoPack } from '../../../seed-data/make/make-demo-pack.ts';
import { makeVocabulary } from '../../../seed-data/make/make-vocabulary.ts';
import { demoFolder, demoPack, demoWorld, vocabularyFolder, vocabularyPack } from './demo-atlas.ts';

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)).split(path.sep).join('/'))
    .sort();

const committed = (folder: string) => new Map(filesIn(folder).map((file) => [file, readFileSync(path.join(folder, file), 'utf8')]));

describe.each([
  { what: 'the vocabulary', folder: vocabularyFolder, make: makeVocabulary, pack: vocabularyPack },
  { what: 'the demo world', folder: demoFolder, make: makeDemoPack, pack: demoWorld },
])('[A6] $what is data', ({ folder, make, pack }) => {
  test('[A6] the committed files are what the makers make, no more and no less (npm run seed writes them)', () => {
    const made = make();
    const there = committed(folder);
    expect([...there.keys()]).toEqual([...made.keys()].sort());
    for (const [file, text] of made) expect(there.get(file) === text, `${file} as made`).toBe(true);
  });

  test('[A6] the makers make the same pack every time', () => {
    expect([...make()]).toEqual([...make()]);
  });

  test('[A6] the files are in canonical form, so exporting the loaded pack gives them back', () => {
    const there = committed(folder);
    for (const [file, text] of canonicalText(pack)) expect(there.get(file) === text, `${file} in canonical form`).toBe(true);
  });

  test('[A5] it says in its first lines that it is invented, and no source in it pretends to be published', () => {
    const head = readFileSync(path.join(folder, 'pack.json'), 'utf8').split('\n').slice(0, 9).join('\n');
    expect(head).toContain('"invented": true');
    expect(head).toContain('invented.');
    expect(pack.sources.filter((source) => source.kind === 'published')).toEqual([]);
  });
});

describe('[A8] vocabulary is not world', () => {
  const worldly = ['makers', 'families', 'generations', 'models', 'rates', 'parts', 'allowed', 'sheets'] as const;

  test('[A8] the vocabulary holds the words of the trade and nothing of a maker; the demo world holds the rest, and leans on it', () => {
    for (const list of worldly) {
      expect(vocabularyPack[list], list).toEqual([]);
      expect(demoWorld[list].length, list).toBeGreaterThan(0);
    }
    for (const { name } of everyList.filter(({ name }) => name !== 'sources' && !(worldly as readonly string[]).includes(name))) {
      expect(demoWorld[name], name).toEqual([]);
      expect(vocabularyPack[name].length, name).toBeGreaterThan(0);
    }
    expect(demoWorld.head.leansOn).toEqual([vocabularyPack.head.id]);
    expect(vocabularyPack.head.leansOn).toBeUndefined();
  });

  test('[A8] no maker, trade name, family or model of the demo world, nor its shop, is named in the vocabulary', () => {
    const names = [
      ...demoWorld.makers.flatMap(({ id, name, tradeNames }) => [id, name, ...tradeNames.map((one) => one.name)]),
      ...demoWorld.families.flatMap(({ id, name }) => [id, name]),
      ...demoWorld.models.map(({ name }) => name),
      ...demoWorld.sources.map(({ id }) => id),
      'Saltmarsh',
      'Port Hallow',
    ];
    const text = [...canonicalText(vocabularyPack).values()].join('\n');
    const named = names.filter((name) =>
      new RegExp(`(?<![\\p{L}-])${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\p{L}-])`, 'iu').test(text),
    );
    expect(named).toEqual([]);
    expect(names.length).toBeGreaterThan(100);
  });
});

describe('[A1] how much there is', () => {
  test('[A1] makers, families, models and parts over ten slots', () => {
    expect(demoPack.makers.map((maker) => maker.id)).toEqual(['merrowby', 'tarnwick', 'veldmark', 'osterhal']);
    expect(demoPack.families.filter((family) => family.maker !== null).length).toBeGreaterThanOrEqual(14);
    expect(demoPack.families.filter((family) => family.maker === null).length).toBeGreaterThanOrEqual(3);
    expect(demoPack.models.length).toBeGreaterThanOrEqual(60);
    expect(demoPack.parts.length).toBeGreaterThanOrEqual(600);
    expect(demoPack.slots).toHaveLength(10);
    expect(new Set(demoPack.parts.map((part) => part.slot)).size).toBe(10);
  });

  test('[A1] six features or more in every slot, measures with instrument, resolution and wear', () => {
    for (const slot of demoPack.slots) {
      expect(demoPack.features.filter((feature) => feature.slot === slot.id).length, slot.name).toBeGreaterThanOrEqual(6);
    }
    for (const feature of demoPack.features) {
      if (feature.kind === 'measure') expect([feature.instrument, feature.resolution, feature.wear], feature.id).not.toContain(undefined);
    }
  });

  test('[O1] at least twelve found units and four planned builds, each with its story', () => {
    expect(demoPack.sheets.filter((sheet) => sheet.kind === 'found').length).toBeGreaterThanOrEqual(12);
    expect(demoPack.sheets.filter((sheet) => sheet.kind === 'planned').length).toBeGreaterThanOrEqual(4);
    for (const sheet of demoPack.sheets) expect(sheet.story.length, sheet.id).toBeGreaterThan(80);
  });
});
