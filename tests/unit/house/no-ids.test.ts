import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { demoAtlas } from '../seed/demo-atlas.ts';

const root = path.join(import.meta.dirname, '../../..');
const sources = ['reasoner', 'db', 'electron', 'renderer'].flatMap((room) =>
  readdirSync(path.join(root, room), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .map((file) => path.join(room, file)),
);

/** Ids of one word are words of the program too, as `shaft` is a drawing; of several words they could only be meant. */
const ids = new Set<string>(
  (['stages', 'slots', 'ports', 'features', 'joints', 'makers', 'families', 'models', 'parts', 'operations', 'instruments'] as const)
    .flatMap((list) => (demoAtlas[list] ?? []).map(({ id }) => id))
    .filter((id) => id.includes('-')),
);

test('[A6] no room of the program names a slot, feature, stage or joint of an atlas, nor anything of a maker’s', () => {
  const named = sources.flatMap((file) =>
    [...readFileSync(path.join(root, file), 'utf8').matchAll(/(['"`])([\w.-]+)\1/g)]
      .filter(([, , text = '']) => ids.has(text))
      .map(([, , text]) => `${file}: ${text}`),
  );
  expect(named).toEqual([]);
  expect(ids.size).toBeGreaterThan(500);
  expect(sources.length).toBeGreaterThan(500);
});
