import { describe, expect, test } from 'vitest';
import { matching } from '../../../renderer/look/matching.ts';
import { offeredBefore } from '../../../renderer/sheet/offeredBefore.ts';
import { features, stages } from './vocabulary-files.ts';

/** What the box of a slot offers, as `AddFeature` makes it. */
const offered = (slot: string, typed: string): readonly string[] =>
  matching(
    features
      .filter((feature) => feature.slot === slot)
      .map((feature) => ({
        text: feature.name,
        also: feature.alsoCalled?.join(' ') ?? '',
        detail: stages.find(({ id }) => id === feature.stage)?.name ?? '',
        rank: offeredBefore(feature, stages),
      })),
    typed,
  ).map(({ text }) => text);

describe('[A1] which feature is offered first', () => {
  test('[A1] blades are counted before anything is chosen about them', () => {
    expect(offered('compressor-wheel', 'blade')).toEqual(['full blade count', 'splitter blade count', 'blade hand', 'tip height']);
    expect(offered('turbine-wheel', 'blade').slice(0, 2)).toEqual(['blade count', 'blade hand']);
    expect(offered('bearing-housing', 'rib').slice(0, 2)).toEqual(['rib count', 'rib pattern']);
  });

  test('[A1] what can be told as received comes before what the strip-down must first lay open, though it begins otherwise', () => {
    expect(offered('bearing-housing', 'bo').slice(0, 2)).toEqual(['bolt count at the turbine housing', 'bolt size at the turbine housing']);
    expect(offered('turbine-housing', 'diameter')[0]).toBe('outlet diameter');
    expect(offered('backplate', 'spigot')).toEqual([
      'spigot diameter towards the compressor housing',
      'spigot diameter towards the bearing housing',
    ]);
  });

  test('[A1] of every slot and every word of its features, no feature stands behind one that is as well found, told later, or of its stage and not counted', () => {
    const words = new Set(features.flatMap(({ name }) => name.toLowerCase().match(/[a-z]{2,}/g) ?? []));
    for (const slot of new Set(features.map((feature) => feature.slot)))
      for (const word of words) {
        const found = offered(slot, word).flatMap((name) => {
          const feature = features.find((one) => one.slot === slot && one.name === name);
          const own = (name.toLowerCase().match(/[a-z0-9]+/g) ?? []).some((one) => one.startsWith(word));
          return feature !== undefined && own && name !== word ? [feature] : [];
        });
        found.forEach((feature, at) => {
          const next = found[at + 1];
          if (next === undefined) return;
          const [stage, later] = [feature, next].map((one) => stages.findIndex(({ id }) => id === one.stage)) as [number, number];
          expect(stage, `${word} in ${slot}: ${feature.name} before ${next.name}`).toBeLessThanOrEqual(later);
          if (stage === later && next.kind === 'count') expect(feature.kind, `${word} in ${slot}: before ${next.name}`).toBe('count');
        });
      }
  });

  test('[A1] one of a stage the atlas does not have is offered last', () => {
    expect(offeredBefore({ kind: 'count', stage: 'none' as never }, stages)).toBeGreaterThan(
      offeredBefore({ kind: 'mark', stage: stages.at(-1)?.id as never }, stages),
    );
  });

  test('[A1] typed whole, a feature is offered first whatever it is of', () => {
    expect(offered('compressor-wheel', 'Blade hand')[0]).toBe('blade hand');
    expect(offered('bearing-set', 'length')[0]).toBe('length');
  });
});
