import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { makeDemoPack } from '../../../seed-data/make/make-demo-pack.ts';
import { demoFolder, demoPack } from './demo-atlas.ts';

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)).split(path.sep).join('/'))
    .sort();

const committed = () => new Map(filesIn(demoFolder).map((file) => [file, readFileSync(path.join(demoFolder, file), 'utf8')]));

describe('[A6] the demo pack is data', () => {
  test('[A6] the committed files are what the makers make, no more and no less (npm run seed writes them)', () => {
    const made = makeDemoPack();
    const there = committed();
    expect([...there.keys()]).toEqual([...made.keys()].sort());
    for (const [file, text] of made) expect(there.get(file) === text, `${file} as made`).toBe(true);
  });

  test('[A6] the makers make the same pack every time', () => {
    expect([...makeDemoPack()]).toEqual([...makeDemoPack()]);
  });

  test('[A6] the files are in canonical form, so exporting the loaded pack gives them back', () => {
    const there = committed();
    for (const [file, text] of canonicalText(demoPack)) expect(there.get(file) === text, `${file} in canonical form`).toBe(true);
  });

  test('[A5] it says in its first lines that it is invented, and no source in it pretends to be published', () => {
    const head = readFileSync(path.join(demoFolder, 'pack.json'), 'utf8').split('\n').slice(0, 9).join('\n');
    expect(head).toContain('"invented": true');
    expect(head).toContain('invented.');
    expect(demoPack.sources.filter((source) => source.kind === 'published')).toEqual([]);
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
