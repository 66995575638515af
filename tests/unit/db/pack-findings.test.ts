import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { mad, probit } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { emptyAtlas } from '../../../db/atlas/pack.ts';
import type { PackWarning } from '../../../db/index.ts';
import { checkFiles } from '../../../db/packs/check-pack.ts';
import { findingLine } from '../../../db/packs/each-once.ts';
import { leastOutliers, outliersIn } from '../../../db/packs/findings/outlying-sizes.ts';
import { meantBy, swapped } from '../../../db/packs/findings/sizes.ts';
import { findings } from '../../../db/packs/findings/table.ts';
import { filesOf } from '../../../db/packs/read-files.ts';
import { askedForPacks } from '../../../electron/desk/open-house.ts';
import type { Atlas, Feature } from '../../../reasoner/index.ts';
import { smallPack } from './packs.ts';

const small = new Map(
  readdirSync(smallPack, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(json|csv)$/.test(file))
    .map((file) => [file, readFileSync(join(smallPack, file), 'utf8')]),
);

interface Texts {
  rows(file: 'parts.csv' | 'facts.csv' | 'allowed.csv', ...rows: string[]): void;
  swap(file: string, from: string, to: string): void;
  json(file: string, change: (entries: Record<string, unknown>[]) => void): void;
}

/** The warnings of the small pack after a change of its texts; it must stay sound. */
const warned = async (
  about: string,
  change: (texts: Texts) => void = () => undefined,
  beside: Atlas = emptyAtlas,
): Promise<readonly PackWarning[]> => {
  const texts = new Map(small);
  const put = (file: string, text: string): void => {
    expect(text, 'the change must change something').not.toBe(texts.get(file));
    texts.set(file, text);
  };
  const held = (file: string): string => texts.get(file) ?? '';
  change({
    rows: (file, ...rows) => put(file, `${held(file)}${rows.join('\n')}\n`),
    swap: (file, from, to) => put(file, held(file).replace(from, to)),
    json: (file, edit) => {
      const entries = JSON.parse(held(file)) as Record<string, unknown>[];
      edit(entries);
      put(file, JSON.stringify(entries, null, 2));
    },
  });
  const checked = await checkFiles(filesOf('pack', texts), beside, askedForPacks);
  expect(checked.faults.map(({ sentence }) => sentence)).toEqual([]);
  return checked.warnings.filter((warning) => warning.about === about);
};
const saidBy = (warnings: readonly PackWarning[]): string[] => warnings.map(findingLine);

/** Compressor wheels that the model tern-4 takes, with an exducer each. */
const wheels = ({ rows }: Texts, ...sizes: readonly string[]): void => {
  rows('parts.csv', ...sizes.map((_, n) => `w${n},compressor-wheel,wheel ${n},merrowby,,,,shop-book`));
  rows('facts.csv', ...sizes.map((size, n) => `w${n},cw-exducer,${size},-0.05,0.05,,`));
  rows('allowed.csv', ...sizes.map((_, n) => `tern-4,compressor-wheel,w${n},service`));
};

test('[P4] of the small pack as it is nothing is suspicious but what it lists', async () => {
  for (const { about } of findings) if (about !== 'lists') expect(saidBy(await warned(about)), about).toEqual([]);
  expect((await warned('lists')).length).toBeGreaterThan(0);
});

describe('[P4] sizes a slip away from those they belong with', () => {
  test.each([
    ['2.05', '52.07 mm, if it was written in inches'],
    ['1320.8', '52 mm, if it was turned from inches into millimetres twice'],
    ['520', '52 mm, if the decimal point slipped'],
    ['0.52', '52 mm, if the decimal point slipped'],
  ])('[P4] %s mm among wheels of 46 to 54 mm', async (size, likely) => {
    const found = await warned('size', (texts) => wheels(texts, '50', '51', '53', '54', size));
    expect(found).toMatchObject([{ file: 'facts.csv', column: 'value', likely: `It would be ${likely}.`, many: 1 }]);
    expect(saidBy(found)[0]).toMatch(
      /^facts\.csv:38:15: the exducer diameter of "wheel 4" is .+ mm, where the 6 other parts of its family have 46\.1 to 54 mm\. Units that are right/,
    );
  });

  test('[P4] a size of its own, however different, and one that no slip explains, are none', async () => {
    expect(await warned('size', (texts) => wheels(texts, '50', '51', '53', '54', '98'))).toEqual([]);
    expect(await warned('size', (texts) => wheels(texts, '50', '51', '53', '54', '4000'))).toEqual([]);
    // Two of them bear each other out.
    expect(await warned('size', (texts) => wheels(texts, '50', '51', '53', '54', '2.05', '2.06'))).toEqual([]);
  });

  test('[P4] two figures swapped: outside the others, and the size of one of them', async () => {
    const likely = 'It would be 53.4 mm, if two figures are swapped.';
    expect(await warned('size', (texts) => wheels(texts, '50', '51', '53.4', '54', '35.4'))).toMatchObject([{ likely }]);
    expect(await warned('size', (texts) => wheels(texts, '50', '51', '53.5', '54', '35.4'))).toEqual([]);
    expect(await warned('size', (texts) => wheels(texts, '35', '51', '53.4', '54', '35.4'))).toEqual([]);
  });

  test('[P4] held against what a part is a pattern of, or took the place of, one is enough', async () => {
    const pattern = await warned('size', ({ swap }) => swap('facts.csv', 'cw-quay-13,cw-exducer,57.1', 'cw-quay-13,cw-exducer,75.2'));
    expect(saidBy(pattern)).toEqual([
      'facts.csv:19:23: the exducer diameter of "Quay compressor wheel" is 75.2 mm, where "Petrel 13 compressor wheel", which it is made to the pattern of, has 57.2 mm. Units that are right would be held against it. It would be 57.2 mm, if two figures are swapped.',
    ]);
    const later = await warned('size', ({ swap }) => swap('facts.csv', 'cw-petrel-13-b,cw-exducer,57.2', 'cw-petrel-13-b,cw-exducer,5.72'));
    expect(later.map(({ likely }) => likely)).toContain('It would be 57.2 mm, if the decimal point slipped.');
    expect(await warned('size', ({ swap }) => swap('facts.csv', 'cw-quay-13,cw-exducer,57.1', 'cw-quay-13,cw-exducer,75.1'))).toEqual([]);
  });

  test('[P4] one slip in many parts is said once', async () => {
    const [found, ...more] = await warned('size', ({ swap }) => {
      swap('facts.csv', 'cw-petrel-13-b,cw-exducer,57.2', 'cw-petrel-13-b,cw-exducer,2.25');
      swap('facts.csv', 'cw-quay-13,cw-exducer,57.1', 'cw-quay-13,cw-exducer,2.24');
    });
    expect(more).toEqual([]);
    expect(found).toMatchObject({ many: 2, line: 15, also: [{ line: 19, character: 23 }] });
    expect(found?.found).toContain('; the same of "Quay compressor wheel"');
  });

  test('[P4] what may have been meant: lengths in inches, angles not, short figures not swapped', () => {
    const [mm, deg] = ['mm', 'deg'].map((unit) => ({ unit }) as Feature) as [Feature, Feature];
    expect(meantBy(2.25, mm)[0]).toEqual({ meant: 57.15, how: 'it was written in inches' });
    expect(meantBy(2.25, deg)[0]).toEqual({ meant: 22.5, how: 'the decimal point slipped' });
    expect(swapped(57.2).map(({ meant }) => meant)).toEqual([75.2, 52.7]);
    expect(swapped(12)).toEqual([]);
    expect(swapped(122).map(({ meant }) => meant)).toEqual([212]);
  });
});

describe('[P4] outliers', () => {
  const seven = [97.9, 98, 98, 98.02, 98.05, 98.1, 98.1];

  test('[P4] by median and median absolute deviation, 1.4826 being 1 / Φ⁻¹(3/4)', () => {
    expect(1.4826).toBeCloseTo(1 / probit(0.75), 2);
    const sizes = [...seven, 110];
    const times = Math.abs(110 - (98.02 + 98.05) / 2) / (1.4826 * mad(sizes));
    expect(outliersIn(sizes)).toEqual(new Map([[7, expect.closeTo(times, 9)]]));
    expect(outliersIn([80, ...seven])).toEqual(new Map([[0, expect.any(Number)]]));
    expect([...outliersIn([80, ...seven, 110]).keys()]).toEqual([0, 8]);
  });

  test('[P4] none of too few, of two that bear each other out, of sizes that spread or are one, and of another fit', () => {
    expect(leastOutliers).toBe(8);
    expect(outliersIn([...seven.slice(1), 110]).size).toBe(0);
    expect(outliersIn([...seven, 110, 111]).size).toBe(0);
    expect(outliersIn([46, 52, 57, 64, 70, 78, 86, 95, 400]).size).toBe(0);
    expect(outliersIn([...Array<number>(8).fill(98), 110]).size).toBe(0);
    expect(outliersIn([...seven, 102.8]).size).toBe(0);
    expect(outliersIn([...seven, 103]).size).toBe(1);
    // Beyond 3.5 of their deviations, no nearer.
    const loose = [90, 92, 94, 96, 98, 100, 102, 104];
    const usual = 1.4826 * mad([...loose, 130]);
    expect(outliersIn([...loose, 98 + 3.5 * usual - 0.01]).size).toBe(0);
    expect(outliersIn([...loose, 98 + 3.5 * usual + 0.01]).size).toBe(1);
  });

  test('[P4] it is said of the part, with what the others of its family have', async () => {
    const sizes = ['52.1', '52.1', '52.2', '52.2', '52.3', '52.4', '52.5'];
    const alone = await warned('outlier', (texts) => {
      texts.swap('facts.csv', 'cw-tern-4,cw-exducer,46.1', 'cw-tern-4,cw-exducer,52.1');
      wheels(texts, ...sizes, '59');
    });
    expect(saidBy(alone)).toEqual([
      expect.stringMatching(
        /^facts\.csv:41:15: the exducer diameter of "wheel 7" is 59 mm, where the 9 other parts of its family have 52 to 52\.5 mm: \d+ times their usual deviation off\. /,
      ),
    ]);
  });
});

describe('[P4] deviations', () => {
  test('[P4] both equal and not zero, and limits in their place', async () => {
    const [equal] = await warned('deviations', ({ swap }) => swap('facts.csv', '46.1,-0.05,0.05', '46.1,0.05,0.05'));
    expect(equal).toMatchObject({ column: 'lower', likely: 'They would be -0.05 and 0.05, if a minus was lost or put twice.' });
    const [limits] = await warned('deviations', ({ swap }) => swap('facts.csv', '46.1,-0.05,0.05', '46.1,46.05,46.15'));
    expect(limits?.likely).toBe('The deviations would be -0.05 and 0.05, if limits were written in their place.');
    expect(limits?.found).toContain('is 46.1 mm with deviations of 46.05 and 46.15');
  });

  test('[P4] none at all, and both on one side, are as they should be', async () => {
    for (const as of ['46.1,0,0', '46.1,0.02,0.05', '46.1,-0.05,-0.02'])
      expect(await warned('deviations', ({ swap }) => swap('facts.csv', '46.1,-0.05,0.05', as))).toEqual([]);
  });
});

describe('[P4] models no choice of parts can build', () => {
  const water = (texts: Texts): void => texts.swap('allowed.csv', 'tern-9,bearing-set,bs-journal', 'tern-9,bearing-set,bs-cartridge');

  test('[P4] no two parts that may sit at a joint go together: a cartridge that needs water in a housing without', async () => {
    expect(saidBy(await warned('cannot be built', water))).toEqual([
      'models.json:12:3: no bearing set the model "Tern 9" lists goes together with a bearing housing it lists, as made or after work (bearing set in bearing housing). No unit of listed parts can be one, so every unit offered under its name would be told that it is none.',
    ]);
  });

  test('[P4] another that does, one that took its place and does, a figure that is not known, and work that helps', async () => {
    expect(
      await warned('cannot be built', (texts) => {
        water(texts);
        texts.rows('allowed.csv', 'tern-9,bearing-set,bs-journal,service');
      }),
    ).toEqual([]);
    expect(
      await warned('cannot be built', (texts) => {
        water(texts);
        texts.rows('parts.csv', 'bs-later,bearing-set,later cartridge,merrowby,,,bs-cartridge,shop-book');
        texts.rows('facts.csv', 'bs-later,bs-needs-water,no,,,,');
      }),
    ).toEqual([]);
    expect(
      await warned('cannot be built', (texts) => {
        water(texts);
        texts.swap('facts.csv', 'bs-cartridge,bs-needs-water,yes', 'bs-cartridge,bs-needs-water,?');
      }),
    ).toEqual([]);
    const tight = (texts: Texts): void => texts.swap('facts.csv', '97.95,-0.02,0,', '98.95,-0.02,0,');
    expect((await warned('cannot be built', tight)).map(({ many }) => many)).toEqual([2]);
    const opened = {
      ...emptyAtlas,
      operations: [
        {
          id: 'open-recess',
          slot: 'compressor-housing',
          does: {
            kind: 'cut',
            cuts: [
              {
                feature: 'ch-recess-diameter',
                way: 'larger',
                most: 5,
                holds: { kind: 'tolerance', tolerance: 0.02 },
                metal: [],
                moves: [],
              },
            ],
          },
          takes: [],
          hours: 1,
          cautions: [],
        },
      ],
    } as unknown as Atlas;
    expect(await warned('cannot be built', tight, opened)).toEqual([]);
  });

  test('[P4] at each joint some parts go together, and never all', async () => {
    const apart = (more: (texts: Texts) => void) =>
      warned('cannot be built', (texts) => {
        // A housing with water whose spigot fits no recess of the model, beside one without that does; and a set that needs water.
        water(texts);
        texts.rows('allowed.csv', 'tern-9,bearing-housing,bh-petrel,service');
        more(texts);
      });
    expect(saidBy(await apart(() => undefined))).toEqual([
      expect.stringMatching(
        /^models\.json:12:3: no choice of the parts the model "Tern 9" lists goes together at all its joints, though at each of them some do\. /,
      ),
    ]);
    expect(await apart(({ swap }) => swap('facts.csv', 'bh-petrel,bh-spigot-diameter,104', 'bh-petrel,bh-spigot-diameter,97.95'))).toEqual(
      [],
    );
  });
});

describe('[P4] names and numbers', () => {
  test('[P4] a name of two models, of two makers or of one without a grammar', async () => {
    expect(
      saidBy(
        await warned('shared name', ({ json }) =>
          json('models.json', ([, , , , quay]) => Object.assign(quay ?? {}, { name: 'rowan  IV-18' })),
        ),
      ),
    ).toEqual([
      'models.json:34:13: the name "Rowan IV-18" is that of 2 models of 2 makers: "rowan-iv-18" and "quay-13". A unit offered under it is judged for each of them, and nothing it says tells which is meant.',
    ]);
    expect(
      await warned('shared name', ({ json }) =>
        json('models.json', ([, , , , quay]) => Object.assign(quay ?? {}, { name: 'Rowan IV-19' })),
      ),
    ).toEqual([]);
    const beside = { ...emptyAtlas, models: [{ id: 'other', name: 'Tern 4', family: 'nobody', allowed: [] }] } as unknown as Atlas;
    expect(await warned('shared name', undefined, beside)).toHaveLength(1);
  });

  test('[P4] a number of two parts of one maker, but where one took the place of the other', async () => {
    expect(saidBy(await warned('shared number', ({ swap }) => swap('parts.csv', 'BERTH 310-0052', 'berth 3100046')))).toEqual([
      'parts.csv:5:61: the number "BERTH 310-0046" of Merrowby stands at 2 parts, none of which took the place of another: "cw-tern-4" and "cw-tern-9". Whoever looks it up is shown all of them, and a number found on one speaks for none. If one took the place of another, supersedes says so.',
    ]);
    expect(await warned('shared number', ({ swap }) => swap('parts.csv', 'BERTH 310-2057', 'BERTH 310-0057'))).toEqual([]);
    // Another maker may stamp the same.
    expect(await warned('shared number', ({ swap }) => swap('parts.csv', 'T/7710', 'BERTH 310-0046'))).toEqual([]);
  });

  test('[P4] a grammar that reads what another maker lists', async () => {
    const calls = (name: string) => (texts: Texts) => texts.json('models.json', ([, , , rowan]) => Object.assign(rowan ?? {}, { name }));
    expect(saidBy(await warned('read by another', calls('Tern 12')))).toEqual([
      expect.stringMatching(
        /^makers\.json:\d+:\d+: the grammar of Merrowby reads a name that Tarnwick Turbine Company lists: "Tern 12"\. Claimed of Merrowby, it would pass for/,
      ),
    ]);
    expect(await warned('read by another', calls('Tern and 12'))).toEqual([]);
  });
});

describe('[P4] parts and joints', () => {
  test('[P4] parts nothing tells apart are said once for all of them', async () => {
    const twins =
      (...facts: string[]) =>
      (texts: Texts) => {
        texts.rows('parts.csv', ...['x', 'y', 'z'].map((id) => `${id},compressor-wheel,wheel ${id},,,,,shop-book`));
        texts.rows(
          'facts.csv',
          ...['x', 'y', 'z'].flatMap((id, n) => [`${id},cw-blades,9,,,,`, facts[n] ?? `${id},cw-exducer,60,-0.1,0.1,,`]),
        );
      };
    expect(saidBy(await warned('alike parts', twins()))).toEqual([
      'parts.csv:17:1: nothing tells 3 parts for the compressor wheel apart: "wheel x", "wheel y" and "wheel z". All that is known of one is known of the others, so no look and no measure says which it is.',
    ]);
    // Of one the exducer is not known: then it may be either.
    expect(await warned('alike parts', twins('x,cw-exducer,?,,,,'))).toMatchObject([
      { found: expect.stringContaining('3 parts'), means: expect.stringContaining('the rest is known of one alone') },
    ]);
    // The same limits, written otherwise; and another size.
    expect(await warned('alike parts', twins('x,cw-exducer,59.9,0,0.2,,', 'y,cw-exducer,61,0,0,,'))).toMatchObject([
      { found: expect.stringMatching(/2 parts .+"wheel x" and "wheel z"$/) },
    ]);
    expect(await warned('alike parts', twins('x,cw-exducer,60.2,-0.1,0.1,,', 'y,cw-exducer,61,-0.1,0.1,,'))).toEqual([]);
    // One that took the place of the other need not be told from it.
    expect(
      await warned('alike parts', (texts) => {
        twins('x,cw-exducer,62,0,0,,')(texts);
        texts.swap('parts.csv', 'y,compressor-wheel,wheel y,,,,,', 'y,compressor-wheel,wheel y,,,,z,');
      }),
    ).toEqual([]);
  });

  test('[P4] parts of which nothing is known', async () => {
    const found = await warned('alike parts', ({ rows }) => rows('parts.csv', 'x,bearing-set,mystery set,,,,,shop-book'));
    expect(saidBy(found)).toEqual([
      'parts.csv:17:1: nothing is known of the part "mystery set". No look and no measure tells it from any other bearing set, so it is left over wherever it may sit.',
    ]);
  });

  test('[P4] joints of which no part has the figures on a side', async () => {
    const silence = (texts: Texts): void => {
      texts.swap('facts.csv', 'bh-tern,bh-spigot-diameter,97.95,-0.02,0,', 'bh-tern,bh-spigot-diameter,?,,,');
      texts.swap('facts.csv', 'bh-petrel,bh-spigot-diameter,104,-0.02,0,,\n', '');
    };
    expect(saidBy(await warned('unmeasured joint', silence))).toEqual([
      'joints.json:2:3: none of the 3 bearing housing parts of the pack has a figure for the spigot diameter. Whether there is a fit at “compressor housing on bearing housing” is then not known for any of them.',
    ]);
    expect(
      await warned('unmeasured joint', ({ swap }) =>
        swap('facts.csv', 'bh-tern,bh-spigot-diameter,97.95,-0.02,0,', 'bh-tern,bh-spigot-diameter,?,,,'),
      ),
    ).toEqual([]);
  });
});

test('[P4] what rests on a file with a fault in it is not said', async () => {
  const texts = new Map(small);
  texts.set(
    'allowed.csv',
    (small.get('allowed.csv') ?? '').replace('tern-4,bearing-housing,bh-tern,names\n', 'tern-4,bearing-housing,bh-tern,name\n'),
  );
  const { faults, warnings } = await checkFiles(filesOf('pack', texts), emptyAtlas, askedForPacks);
  expect(faults).toHaveLength(1);
  expect(warnings.map(({ about }) => about)).not.toContain('lists');
});
