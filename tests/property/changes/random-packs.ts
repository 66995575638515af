import fc from 'fast-check';
import type { Allowance, Pack } from '../../../db/atlas/pack.ts';
import { emptyAtlas } from '../../../db/atlas/pack.ts';
import { asId, blankSheet, type Feature, type Maker, type Part, type Rates, type Sheet, type Stage } from '../../../reasoner/index.ts';

/** Ids out of a few, each once and in any order, so that two packs speak of the same things. */
const some = (of: readonly string[], most = of.length) => fc.uniqueArray(fc.constantFrom(...of), { maxLength: most });
const figure = fc.integer({ min: 1, max: 9 });
const word = fc.constantFrom('plain', 'with a lip', 'long', 'short', 'of the second kind');

const eachOf = <T>(ids: fc.Arbitrary<string[]>, make: (id: string) => fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
  ids.chain((of) => fc.tuple(...of.map(make)) as fc.Arbitrary<T[]>);
const optionally = <K extends string, V>(key: K, value: fc.Arbitrary<V>) =>
  fc.option(value, { nil: undefined }).map((said) => (said === undefined ? {} : { [key]: said }) as { [k in K]?: V });
const together = <A extends object, B extends object>(a: fc.Arbitrary<A>, b: fc.Arbitrary<B>) =>
  fc.tuple(a, b).map(([x, y]) => ({ ...x, ...y }));

const features = ['blades', 'bore', 'water'];
const parts = ['wheel-a', 'wheel-b', 'wheel-c', 'core-a', 'core-b', 'core-c', 'plate-a'];

const fact = fc.oneof(
  fc.record({ kind: fc.constant('count' as const), from: figure, to: figure.map((n) => n + 9) }),
  fc.record({ kind: fc.constant('measure' as const), nominal: figure, lower: fc.constant(-1), upper: fc.constantFrom(0, 1) }),
  fc.record({ kind: fc.constant('presence' as const), present: fc.boolean() }),
  fc.constant({ kind: 'not known' as const }),
);

const part = (id: string): fc.Arbitrary<Part> =>
  fc
    .record({
      name: word,
      maker: fc.constantFrom(null, 'merrowby'),
      numbers: some(['KNOT 1', 'KNOT 2', 'OAR 7']),
      facts: eachOf(some(features), (feature) => fc.tuple(fc.constant(feature), fact, fc.constantFrom(null, 'other-book'))),
      more: together(optionally('supersedes', fc.constantFrom(...parts)), optionally('patternOf', fc.constantFrom(...parts))),
    })
    .map(({ name, maker, numbers, facts, more }) => {
      const sources = facts.flatMap(([feature, , source]) => (source === null ? [] : [[feature, source]]));
      return {
        id,
        slot: id.split('-')[0],
        name,
        maker,
        numbers,
        ...more,
        facts: Object.fromEntries(facts.map(([feature, of]) => [feature, of])),
        ...(sources.length === 0 ? {} : { factSources: Object.fromEntries(sources) }),
        source: 'book',
      } as unknown as Part;
    });

const maker = (id: string): fc.Arbitrary<Maker> =>
  fc
    .record({
      name: word,
      plateRule: fc.boolean(),
      tradeNames: fc.array(fc.record({ name: word, from: fc.integer({ min: 1950, max: 1990 }), to: fc.constant(null) }), { maxLength: 2 }),
      numbering: eachOf(some(['first', 'second', 'third']), (of) =>
        fc.record({
          id: fc.constant(of),
          name: word,
          says: fc.constantFrom('part number', 'serial number'),
          from: fc.constant(null),
          to: fc.constant(null),
          pieces: fc.constantFrom(
            [{ before: '', kind: 'fixed', text: 'KNOT' }],
            [{ before: ' ', kind: 'digits', name: 'running number', count: 3 }],
          ),
        }),
      ),
    })
    .map(
      ({ numbering, ...rest }) =>
        ({ id, ...rest, grammar: null, ...(numbering.length === 0 ? {} : { numbering }), source: 'book' }) as unknown as Maker,
    );

const feature = (id: string): fc.Arbitrary<Feature> =>
  fc
    .record({
      name: word,
      minutes: figure,
      options: eachOf(some(['cast', 'turned', 'forged']), (of) => fc.record({ id: fc.constant(of), name: word })),
      wear: optionally('wear', fc.record({ below: figure, above: figure })),
    })
    .map(({ name, minutes, options, wear }) => {
      const [kind, more] =
        id === 'bore' ? ['measure', { unit: 'mm', ...wear }] : options.length > 0 ? ['choice', { options }] : ['presence', {}];
      return { id, slot: 'wheel', name, kind, ...more, stage: 'received', minutes } as unknown as Feature;
    });

const stage = (id: string): fc.Arbitrary<Stage> =>
  fc.record({ name: word, minutes: figure, after: some(['received', 'opened']) }).map((said) => ({ id, ...said }) as unknown as Stage);

const rates = (id: string): fc.Arbitrary<Rates> =>
  fc
    .record({
      hour: figure,
      parts: eachOf(some(parts), (of) => fc.record({ part: fc.constant(of), price: figure })),
    })
    .map((said) => ({ id, name: 'rates', money: 'crowns', ...said, source: 'book' }) as unknown as Rates);

const sheet = (id: string): fc.Arbitrary<Sheet> => word.map((title) => ({ ...blankSheet(asId(id)), title }));

/** Packs that are sound in shape. What their ids lead to nobody asks here. */
export const anyPack: fc.Arbitrary<Pack> = fc
  .record({
    edition: fc.constantFrom('2026-03-02', '2026-04-01', '2026-05-01'),
    stages: eachOf(some(['received', 'opened', 'stripped']), stage),
    features: eachOf(some(features), feature),
    makers: eachOf(some(['merrowby', 'tarnwick', 'veldmark']), maker),
    parts: eachOf(some(parts), part),
    rates: eachOf(some(['harbour', 'town']), rates),
    allowed: eachOf(some(parts), (of) =>
      fc.record({
        model: fc.constantFrom('tern-4', 'petrel-13'),
        slot: fc.constant(of.split('-')[0] as string),
        part: fc.constant(of),
        role: fc.constantFrom('names', 'option', 'service'),
      }),
    ),
    sheets: eachOf(some(['found-1', 'found-2']), sheet),
  })
  .map(({ edition, allowed, ...lists }) => {
    const { edition: _none, parts: _parts, ...empty } = emptyAtlas;
    const head = {
      format: 'kinplate atlas pack',
      version: 1,
      id: 'small',
      title: 'Small',
      edition,
      invented: true,
      note: 'Invented.',
    } as const;
    return { ...empty, ...lists, head, allowed: allowed as unknown as Allowance[] } as unknown as Pack;
  });
