import { describe, expect, test } from 'vitest';
import type { FitEngine } from '../../../db/graph/keep-fits.ts';
import { nearNumbers } from '../../../db/graph/near-numbers.ts';
import { featuresOf, fitsEdition, judgeJoint, partnersOf } from '../../../reasoner/index.ts';
import { filledStore, valueIn } from './kit.ts';

const fitEngine: FitEngine = { edition: fitsEdition, judge: judgeJoint, partnersOf, featuresOf };

const names = (nodes: readonly { readonly id: string }[] | null) => nodes?.map(({ id }) => id) ?? null;

describe('[P12] a part number first', () => {
  test('[P12] answers whose it is, where it is used, what it took the place of and what took its place, spaces, signs and case passed over', async () => {
    const { graph } = await filledStore();
    for (const typed of ['BERTH 310-1057', 'berth3101057', ' berth 310/1057 ']) {
      const { parts, near } = valueIn(await graph.number(typed));
      expect(near).toEqual([]);
      expect(parts).toMatchObject([
        { part: { id: 'cw-petrel-13-b' }, number: 'BERTH 310-1057', maker: 'merrowby', slot: 'compressor-wheel' },
      ]);
      expect(names(parts[0]?.tookThePlaceOf ?? null)).toEqual(['cw-petrel-13']);
      expect(names(parts[0]?.replacedBy ?? null)).toEqual(['cw-petrel-13-c']);
      expect(parts[0]?.sitsIn.map(({ model, role, inPlaceOf }) => [model.id, role, inPlaceOf?.id])).toEqual([
        ['petrel-13', 'names', 'cw-petrel-13'],
      ]);
    }
    expect(valueIn(await graph.number(' -/ '))).toEqual({ typed: '', parts: [], near: [] });
  });

  test('[P12] what else may sit there is what the same models list in the same slot, and never what sits elsewhere in them', async () => {
    const { graph } = await filledStore();
    const others = async (number: string) =>
      valueIn(await graph.number(number)).parts[0]?.others.map(({ part, in: models }) => [part.id, models.map(({ model }) => model.id)]);
    expect(await others('BERTH 310-0057')).toEqual([
      ['cw-petrel-13-b', ['petrel-13']],
      ['cw-petrel-13-c', ['petrel-13']],
    ]);
    expect(await others('BERTH 150-0001')).toEqual([]);
  });

  test('[P12] parts with the same dimensions at every joint are named; where one is not known, or fits were not worked out, neither is that', async () => {
    const without = await filledStore();
    expect(valueIn(await without.graph.number('BERTH 310-0057')).parts[0]?.alike).toBeNull();
    const store = await filledStore({ fitEngine });
    const alike = async (number: string) => names(valueIn(await store.graph.number(number)).parts[0]?.alike ?? null);
    const atlas = await store.atlas.read();
    // By a plain reading of the atlas: every feature of every joint the slot has a port in, known, and the same.
    for (const part of atlas.parts) {
      const [number] = part.numbers;
      if (number === undefined) continue;
      const slotOfPort = new Map(atlas.ports.map(({ id, slot }) => [id, slot]));
      const slotOf = new Map(atlas.features.map(({ id, slot }) => [id, slot]));
      const read = atlas.joints
        .filter(({ a, b }) => [a, b].some((port) => slotOfPort.get(port) === part.slot))
        .map(({ rules }) =>
          [...new Set(rules.flatMap((rule) => fitEngine.featuresOf(rule)))].filter((feature) => slotOf.get(feature) === part.slot),
        );
      const known =
        read.length > 0 &&
        read.every((features) => features.every((feature) => (part.facts[feature]?.kind ?? 'not known') !== 'not known'));
      const same = atlas.parts.filter(
        (other) =>
          other.id !== part.id &&
          other.slot === part.slot &&
          read.every((features) =>
            features.every((feature) => JSON.stringify(other.facts[feature]) === JSON.stringify(part.facts[feature])),
          ),
      );
      expect([part.id, await alike(number)]).toEqual([part.id, known ? same.map(({ id }) => id) : null]);
    }
  });

  test('[P12] [O7] where no part has it, numbers one slip away are told with the slip; else those that begin so; else none', async () => {
    const { graph } = await filledStore();
    const near = async (typed: string) => valueIn(await graph.number(typed)).near.map(({ number, slip }) => [number, slip]);
    expect(await near('BERTH 301-0057')).toEqual([['BERTH 310-0057', 'two signs changed places']]);
    expect(await near('BERTH 310-0o57')).toEqual([['BERTH 310-0057', 'one sign is another']]);
    expect(await near('BERTH 310-057')).toEqual(
      ['BERTH 310-0057', 'BERTH 310-1057', 'BERTH 310-2057'].map((number) => [number, 'one sign is missing']),
    );
    expect(await near('BERTH 310-00577')).toEqual([['BERTH 310-0057', 'one sign is too many']]);
    expect((await near('berth 12')).map(([number, slip]) => [number, slip])).toEqual([
      ['BERTH 120-3301', null],
      ['BERTH 120-4410', null],
    ]);
    expect(await near('COBBLE 9')).toEqual([]);
    expect(await near(`BERTH 310-0057${'0'.repeat(40)}`)).toEqual([]);
  });

  test('[P12] [O7] one slip away is an edit distance of one, exchanged neighbours counted as one edit, and no number is its own slip', () => {
    // Optimal string alignment (Damerau 1964), by its recurrence.
    const distance = (a: string, b: string): number => {
      const d = (i: number, j: number): number => {
        if (i === 0 || j === 0) return i + j;
        const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? d(i - 2, j - 2) + 1 : Number.POSITIVE_INFINITY;
        return Math.min(d(i - 1, j) + 1, d(i, j - 1) + 1, d(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1), swapped);
      };
      return d(a.length, b.length);
    };
    const typed = '1201';
    const near = nearNumbers(typed);
    const all = ['', ...'012'.split('')].flatMap((w) =>
      ['', ...'012'.split('')].flatMap((x) =>
        ['', ...'012'.split('')].flatMap((y) => ['', ...'012'.split('')].flatMap((z) => ['', '1'].map((v) => w + x + y + z + v))),
      ),
    );
    for (const number of new Set(all))
      if (number !== '') expect([number, near.has(number)]).toEqual([number, distance(typed, number) === 1]);
  });
});
