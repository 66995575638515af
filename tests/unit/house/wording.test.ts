import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const root = path.join(import.meta.dirname, '../../..');
const pages = ['reasoner', 'db', 'electron', 'renderer', 'docs', 'seed-data'].flatMap((room) =>
  readdirSync(path.join(root, room), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(tsx?|md|json)$/.test(file))
    .map((file) => path.join(room, file)),
);

/** Wordings that gave way to another, which alone is to be met: of what stands, of reasons, and sentences that were read twice. */
const gone: readonly (readonly [was: RegExp, is: string])[] = [
  [/no name holds/i, 'no name stands'],
  [/ways? to (?:show|put) it/i, 'reasons, and lines that say so'],
  [/take any one (?:member )?away/i, 'each line is enough by itself, and needs all that it names'],
  [/about even over/i, 'equally likely'],
  [/none as its cutback/i, 'no cutback'],
  [/times that, and a better one may exist/i, 'how far it may be from the best'],
  [/\bcomes again in a minute/i, 'asked again'],
];

test('[K2] a thing has one wording everywhere: verdict, ticket, report, command line, help', () => {
  const met = pages.flatMap((file) => {
    const text = readFileSync(path.join(root, file), 'utf8').replace(/\s+/g, ' ');
    return gone.flatMap(([was, is]) => (was.test(text) ? [`${file}: ${was.source}, which is now: ${is}`] : []));
  });
  expect(met).toEqual([]);
  expect(pages.length).toBeGreaterThan(500);
});
