import { describe, expect, test } from 'vitest';
import {
  buildSheetOf,
  buildSheetText,
  type FeatureId,
  type FitVerdict,
  fitCautions,
  type JointId,
  type Observation,
  type PartId,
  type Plan,
  planBuild,
  type Rates,
  type Sheet,
  type SlotId,
} from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const sheet = (start: string): Sheet => {
  const found = demoPack.sheets.find((each) => each.id.startsWith(`${start}-`));
  if (found === undefined) throw new Error(`no sheet ${start}`);
  return found;
};
const planOf = (of: Sheet, options: Parameters<typeof planBuild>[2] = {}): Plan => {
  const plan = planBuild(demo, of, options);
  if (plan.kind !== 'plan') throw new Error(`${of.id} contradicts itself`);
  return plan;
};
const plan = (start: string): Plan => planOf(sheet(start));

/** Joints that do not simply drop in, with their verdicts. */
const notDroppingIn = ({ joints }: Plan): Record<string, FitVerdict> =>
  Object.fromEntries(joints.filter(({ verdict }) => verdict !== 'drops in').map(({ joint, verdict }) => [joint, verdict]));
const marks = ({ slots }: Plan) => Object.fromEntries(slots.map(({ slot, mark }) => [slot, mark]));
const jointIn = (of: Plan, id: string) => of.joints.find(({ joint }) => joint === id);
const must = ({ ticket }: Plan): string => ticket.mustNot.map(({ text }) => text).join('\n');
const may = ({ ticket }: Plan): string => ticket.may.map(({ text }) => text).join('\n');

/** Limits of a chosen part's size by the atlas, mm. */
const limits = (of: Sheet, feature: string): { readonly low: number; readonly high: number } => {
  const slot = demo.features.get(feature as FeatureId)?.slot as SlotId;
  const fact = demo.parts.get(of.chosen[slot] as never)?.facts[feature as FeatureId];
  if (fact?.kind !== 'measure') throw new Error(`no size ${feature}`);
  return { low: fact.nominal + fact.lower, high: fact.nominal + fact.upper };
};
const caliper = (feature: string, value: number, u: number): Observation =>
  ({
    id: `in hand ${feature}`,
    slot: demo.features.get(feature as FeatureId)?.slot,
    feature,
    value: { kind: 'measure', value },
    sure: { kind: 'measured', u },
  }) as unknown as Observation;

describe('[J2] builds on paper: nothing falls out, every joint is judged', () => {
  const verdicts: readonly (readonly [string, FitVerdict, Record<string, FitVerdict>])[] = [
    ['s23', 'drops in', {}],
    ['s24', 'after work', { 'compressor-housing-and-backplate': 'after work', 'compressor-wheel-and-compressor-housing': 'after work' }],
    ['s25', 'will not fit', { 'compressor-wheel-and-compressor-housing': 'will not fit' }],
    ['s26', 'will not fit', { 'bearing-set-and-bearing-housing': 'will not fit', 'shaft-and-bearing-set': 'will not fit' }],
    ['s27', 'will not fit', { 'compressor-wheel-and-compressor-housing': 'will not fit', 'compressor-wheel-and-shaft': 'will not fit' }],
    ['s28', 'will not fit', { 'turbine-wheel-and-turbine-housing': 'will not fit' }],
    ['s29', 'drops in', {}],
  ];

  test.each(verdicts)('[F2] %s: %s', (start, verdict, joints) => {
    const told = plan(start);
    expect([told.verdict, notDroppingIn(told)]).toEqual([verdict, joints]);
    expect([told.joints.length, told.waiting]).toEqual([demo.joints.length, []]);
  });

  test('[J2] the part that fouls is still the part it is: it keeps its slot and its maker, and its joint says by how much', () => {
    const told = plan('s25');
    const housing = told.slots.find(({ slot }) => slot === 'compressor-housing');
    expect([housing?.text, housing?.machined]).toEqual(['Tarnwick Rowan III compressor housing', false]);
    const fouls = jointIn(told, 'compressor-wheel-and-compressor-housing');
    const failing = fouls?.fit.findings.find(({ verdict }) => verdict === 'will not fit');
    expect(failing?.found?.greatest, 'the blades reach into the housing').toBeLessThan(0);
    expect(fouls?.refused.map(({ because }) => because.kind)).toContain('too much');
    expect([told.works, told.cost.hours]).toEqual([[], 0]);
  });

  test('[J2] a slot without a part leaves its joints waiting and its names open, not failed', () => {
    const { 'compressor-housing': _housing, ...chosen } = sheet('s23').chosen as Record<string, never>;
    const told = planOf({ ...sheet('s23'), chosen });
    expect(told.waiting).toEqual(expect.arrayContaining(['compressor-housing-and-backplate', 'compressor-wheel-and-compressor-housing']));
    expect([told.waiting.length, told.verdict]).toEqual([2, 'drops in']);
    expect(told.open).toContain('model:gannet-12');
  });

  test('[F1] what decides is what the trade would say: bearing kind and water, the nut’s hand and rotation, entry', () => {
    const failing = (start: string): readonly string[] => [
      ...new Set(
        plan(start).joints.flatMap(({ fit }) =>
          fit.findings.filter(({ verdict }) => verdict === 'will not fit').map(({ rule }) => rule.kind),
        ),
      ),
    ];
    expect(failing('s26')).toEqual(expect.arrayContaining(['same', 'services']));
    expect(failing('s27').toSorted()).toEqual(['direction of rotation', 'thread']);
    expect(failing('s28')).toEqual(['same']);
  });

  test('[F1] a cartridge is no journal set’s length either: the stack between the shoulders does not hold', () => {
    const stack = plan('s26').chains.find(({ chain }) => chain === 'bearing-float');
    expect(stack?.after.verdict).toBe('will not fit');
    for (const start of ['s23', 's24', 's25', 's27', 's28', 's29']) {
      for (const { before, after, chain } of plan(start).chains)
        expect([before.verdict, after.verdict], `${start} ${chain}`).toEqual(['drops in', 'drops in']);
    }
  });
});

describe('[F2] s24: an Alder III housing on a Tern 7 core, after machining', () => {
  const of = sheet('s24');
  const told = plan('s24');
  const sizes = told.works.flatMap((work) =>
    work.sizes.map((size) => ({ ...size, low: size.nominal + size.lower, high: size.nominal + size.upper })),
  );
  const made = (feature: string) => {
    const size = sizes.find((each) => each.feature === feature);
    if (size === undefined) throw new Error(`${feature} is not worked`);
    return size;
  };

  test('[F2] which operation, on which part, for which joint: recess and contour of the housing, the core untouched', () => {
    expect(told.works.map(({ operation, part, joint }) => [operation, part, joint])).toEqual([
      ['open-compressor-recess', 'tarnwick-alder-iii-compressor-housing', 'compressor-housing-and-backplate'],
      ['recontour-compressor-housing', 'tarnwick-alder-iii-compressor-housing', 'compressor-wheel-and-compressor-housing'],
    ]);
    for (const work of told.works) expect([work.allowed, work.missing], work.operation).toEqual(['holds', []]);
  });

  test('[F2] the finished recess takes every good spigot, by hand: 0.02 to 0.16 mm at the tightest and the loosest', () => {
    const spigot = limits(of, 'backplate-spigot');
    const recess = made('compressor-housing-recess');
    expect(recess.low - spigot.high).toBeGreaterThanOrEqual(0.02 - 1e-9);
    expect(recess.high - spigot.low).toBeLessThanOrEqual(0.16 + 1e-9);
    expect(recess.high - recess.low, 'IT8 over 80 up to 120 mm (ISO 286-1, from memory)').toBeCloseTo(0.054, 9);
    expect(recess.nominal * 100, 'made to a whole hundredth').toBeCloseTo(Math.round(recess.nominal * 100), 6);
  });

  test('[F2] the finished contour clears every good wheel, by hand: radially 0.12 to 0.45 and 0.12 to 0.5 mm', () => {
    for (const [short, most] of [
      ['inducer', 0.45],
      ['exducer', 0.5],
    ] as const) {
      const wheel = limits(of, `compressor-wheel-${short}`);
      const contour = made(`compressor-housing-${short}-contour`);
      expect((contour.low - wheel.high) / 2, short).toBeGreaterThanOrEqual(0.12 - 1e-9);
      expect((contour.high - wheel.low) / 2, short).toBeLessThanOrEqual(most + 1e-9);
    }
  });

  test('[F2] what is left of a wall, at its thinnest with the most taken off, by hand; and it is no less than must be left', () => {
    const [opened] = told.works;
    const wall = limits(of, 'compressor-housing-recess-wall');
    const recess = made('compressor-housing-recess');
    const before = limits(of, 'compressor-housing-recess');
    const left = opened?.metal.find(({ feature }) => feature === 'compressor-housing-recess-wall');
    expect(left?.leaves).toBeCloseTo(wall.low - (recess.high - before.low) / 2, 6);
    for (const { leaves, mustLeave, feature } of told.works.flatMap(({ metal }) => metal)) {
      expect(leaves, feature).toBeGreaterThanOrEqual(mustLeave);
    }
  });

  test('[F2] once it is done every joint drops in; before, neither of the two did', () => {
    for (const { joint, fit, after, works } of told.joints) {
      expect(after.verdict, joint).toBe('drops in');
      expect(fit.verdict, joint).toBe(works.length === 0 ? 'drops in' : 'will not fit');
    }
  });

  test('[F2] its sentences name operation, part, size with tolerance, metal and hours', () => {
    const [opened] = told.works;
    const recess = made('compressor-housing-recess');
    expect(opened?.sentence).toContain('Open the backplate recess on the Alder III compressor housing');
    expect(opened?.sentence).toContain(`to ${recess.nominal} +${recess.upper}/0 mm`);
    expect(opened?.sentence).toContain('must be left');
    expect(opened?.sentence).toContain(`${opened?.hours} h.`);
    expect(told.sentence).toContain('after 2 operations');
  });

  test('[F4] only the part that is worked on is marked after work; what it meets drops in', () => {
    expect(marks(told)).toEqual(
      Object.fromEntries(told.slots.map(({ slot }) => [slot, slot === 'compressor-housing' ? 'after work' : 'drops in'])),
    );
    expect(told.sentence).toBe(
      'It goes together after 2 operations on the compressor housing: compressor housing on backplate and compressor wheel in its contour.',
    );
    for (const id of ['compressor-housing-and-backplate', 'compressor-wheel-and-compressor-housing'])
      expect(jointIn(told, id)?.sentences[0], id).toMatch(/: goes together after work on the Alder III compressor housing\.$/);
    const sheetText = buildSheetText(buildSheetOf(demo, of, told));
    expect(sheetText.match(/, machined/g), 'on paper too: in the list of parts and on the ticket').toHaveLength(2);
  });

  test('[F4] on the build sheet each part is a line with its price or none, and each part that is worked on has its sizes as a drawing sets them', () => {
    const { parts, total, machining } = buildSheetOf(demo, of, told);
    expect(parts.map(({ slot }) => slot)).toEqual(told.slots.map(({ slot }) => slot));
    expect(parts.filter(({ from }) => from === 'bought').map(({ part, price }) => ({ part, price }))).toEqual(told.cost.parts);
    for (const { from, price } of parts) expect(from === 'bought' || price === null).toBe(true);
    expect(total).toMatchObject({ all: told.cost.atLeast, labour: told.cost.labour, unpriced: told.cost.unpriced.length });
    const known = told.cost.parts.reduce((sum, { price }) => sum + (price ?? 0), 0);
    expect([total.parts, (total.parts ?? 0) + (total.labour ?? 0)]).toEqual([expect.closeTo(known, 6), expect.closeTo(total.all ?? 0, 6)]);
    expect(machining.map(({ slot }) => slot)).toEqual(['compressor-housing']);
    const sizes = machining.flatMap(({ works }) => works.flatMap((work) => work.sizes));
    expect(sizes.map(({ feature, nominal, lower, upper }) => ({ feature, nominal, lower, upper }))).toEqual(
      told.works.flatMap((work) => work.sizes.map(({ feature, nominal, lower, upper }) => ({ feature, nominal, lower, upper }))),
    );
    for (const { name, diameter } of sizes) expect(diameter, name).toBe(name.includes('diameter'));
  });

  test('[O5] a nameplate nobody chose is nothing to be filled, on the build sheet either', () => {
    const chosen = Object.fromEntries(Object.entries(of.chosen).filter(([slot]) => slot !== 'nameplate' && slot !== 'shaft'));
    const bare = { ...of, chosen, absent: [] } as typeof of;
    const { parts } = buildSheetOf(demo, bare, planOf(bare));
    const said = (slot: string) => parts.find((one) => one.slot === slot)?.text;
    expect([said('nameplate'), said('shaft')]).toEqual(['only the maker issues one', 'not chosen yet']);
  });

  test('[O5] [F4] a chosen nameplate came with its housing: it is no part to buy, of no price, and none is missed', () => {
    const plate = of.chosen['nameplate' as SlotId] as PartId;
    expect(told.slots.find(({ slot }) => slot === 'nameplate')?.part).toBe(plate);
    expect(told.cost.parts.map(({ part }) => part)).not.toContain(plate);
    expect(told.cost.unpriced).not.toContain(plate);
    const [rates] = demo.data.rates ?? [];
    const priced = { ...(rates as Rates), parts: [{ part: plate, price: 5 }] };
    expect(planOf(of, { rates: priced }).cost.atLeast, 'not where a list prices one either').toBe(
      planOf(of, { rates: { ...priced, parts: [] } }).cost.atLeast,
    );
    const made = buildSheetOf(demo, of, told);
    expect(made.parts.find(({ slot }) => slot === 'nameplate')).toMatchObject({ part: plate, from: 'not sold', price: null });
    const lines = made.sections.find(({ heading }) => heading === 'Parts')?.lines ?? [];
    expect(lines.find((line) => line.startsWith('nameplate: '))).toMatch(/, not sold by itself$/);
  });

  test('[F4] what is left to be measured and chosen once the work is done is said after the work, stacks of lengths too', () => {
    const stack = told.chains[0];
    const { least, greatest } = stack?.after.numbers?.worst ?? { least: Number.NaN, greatest: Number.NaN };
    const chains = demo.data.chains?.map((chain) => (chain.id === stack?.chain ? { ...chain, min: (least + greatest) / 2 } : chain));
    const straddling = planBuild({ ...demo, data: { ...demo.data, chains } } as typeof demo, of);
    if (straddling.kind !== 'plan') throw new Error('s24 contradicts itself');
    expect(straddling.sentence).toBe(`${told.sentence} Parts are then to be measured and chosen: ${stack?.name}.`);
  });

  test('[F4] a pair that is measured and chosen is marked so on both sides, and neither part as one that is worked on', () => {
    // A spigot in hand half-way into what the catalogue's recesses can be takes some of them and not others.
    const own = sheet('s23');
    const recess = limits(own, 'compressor-housing-recess');
    const inHand = caliper('backplate-spigot', (recess.low + recess.high) / 2 - 0.02, 0.0005);
    const straddling = planBuild({ ...demo, data: { ...demo.data, operations: [] } }, { ...own, observations: [inHand] });
    if (straddling.kind !== 'plan') throw new Error('one entry contradicts nothing');
    const joint = jointIn(straddling, 'compressor-housing-and-backplate');
    expect([joint?.verdict, joint?.works]).toEqual(['after work', []]);
    const { 'compressor-housing': housing, backplate, ...others } = marks(straddling);
    expect([housing, backplate]).toEqual(['measure and choose', 'measure and choose']);
    expect(Object.values(others)).not.toContain('after work');
    expect(straddling.sentence).toBe('It goes together once parts are measured and chosen: compressor housing on backplate.');
    const { backplate: _out, ...without } = own.chosen as Record<string, never>;
    expect(marks(planOf({ ...own, chosen: without })).backplate, 'no part, no mark').toBeNull();
  });

  test('[F4] hours and money: the operations’ hours at the shop’s rate, and every part that is not in stock', () => {
    const rates = demo.data.rates?.[0];
    const priceOf = new Map(rates?.parts.map(({ part, price }) => [part, price]));
    const hours = told.works.reduce((sum, work) => sum + work.hours, 0);
    const parts = Object.entries(of.chosen).flatMap(([slot, part]) => (slot === 'nameplate' ? [] : [part]));
    expect(told.cost.hours).toBe(hours);
    expect(told.cost.labour).toBeCloseTo(hours * (rates?.hour ?? Number.NaN), 2);
    const known = parts.reduce((sum, part) => sum + (priceOf.get(part) ?? 0), hours * (rates?.hour ?? Number.NaN));
    expect(told.cost.atLeast).toBeCloseTo(known, 2);
    expect(told.cost.unpriced).toEqual(parts.filter((part) => !priceOf.has(part)));
    const stocked = planOf(of, { stock: parts });
    expect([stocked.cost.parts, stocked.cost.atLeast]).toEqual([[], told.cost.labour]);
  });

  test('[F4] name, ticket and works in one answer: the core keeps its name, the housing its maker and what was done to it', () => {
    expect(told.honest).toEqual(['core:tern-7/compressor-housing=alder/turbine-housing=own']);
    expect(may(told)).toContain('Tarnwick Alder III compressor housing, machined');
    expect(must(told)).toContain('as unmodified: the compressor housing will have been machined');
    expect(must(told)).toContain('as a Tarnwick unit: the name belongs to the compressor housing');
  });

  test('[F2] a recess found wide enough on the part in hand is not opened', () => {
    const spigot = limits(of, 'backplate-spigot');
    const wide = caliper('compressor-housing-recess', (spigot.low + spigot.high) / 2 + 0.09, 0.002);
    const measured = planOf({ ...of, observations: [wide] });
    expect(measured.works.map(({ operation }) => operation)).toEqual(['recontour-compressor-housing']);
    expect(notDroppingIn(measured)).toEqual({ 'compressor-wheel-and-compressor-housing': 'after work' });
  });
});

describe('[N5] what a build on paper may be called', () => {
  test('[N4] a housing of another house on a true core: s23 is a Gannet 12 core with a Rowan housing', () => {
    const told = plan('s23');
    expect(told.honest).toEqual(['core:gannet-12/compressor-housing=rowan/turbine-housing=own']);
    expect(must(told)).toContain('as a Tarnwick unit');
    expect(must(told)).not.toContain('machined');
  });

  test('[N1] s29: with the first Skua’s wheel it is no Skua while the plate says Petrel, and the exchange that would make it one is named', () => {
    const told = plan('s29');
    expect(told.claim?.status).toBe('ruled out');
    expect(told.honest).toEqual(['all-parts:skua-13-cartridge']);
    expect(told.swaps?.found.map(({ slots }) => slots)).toEqual([['nameplate']]);
  });

  test('[W1] what cannot be built must not be sold as if it could', () => {
    for (const start of ['s25', 's26', 's27', 's28']) expect(must(plan(start)), start).toContain('as one that can be built');
    for (const start of ['s23', 's24', 's29']) expect(must(plan(start)), start).not.toContain('as one that can be built');
  });

  test('[N5] a part in hand that is not the part chosen names nothing', () => {
    const of = sheet('s23');
    const tip = caliper('compressor-wheel-exducer', limits(of, 'compressor-wheel-exducer').high + 3, 0.02);
    const told = planOf({ ...of, observations: [tip] });
    expect(told.slots.filter(({ stranger }) => stranger).map(({ slot }) => slot)).toEqual(['compressor-wheel']);
    expect(told.findings).toHaveLength(1);
    expect(told.honest.join()).not.toContain('gannet-12');
  });
});

describe('[F5] cautions stand with the answer', () => {
  const { rules, balance, burst, rub, thread, rotation, water, workshop } = fitCautions;

  test.each([
    ['s23', [rules]],
    ['s24', [workshop, rules]],
    ['s25', [rub, balance, burst]],
    ['s26', [water, balance]],
    ['s27', [thread, rotation]],
    ['s28', [rub, rotation, burst]],
  ] as const)('[F5] %s says what can hurt here', (start, said) => {
    expect(plan(start).cautions).toEqual(expect.arrayContaining([...said]));
  });

  test('[F5] each is said once, and the sheet for the bench carries all of them with the operations', () => {
    for (const each of demoPack.sheets.filter(({ kind }) => kind === 'planned')) {
      const told = planOf(each);
      expect(new Set(told.cautions).size, each.id).toBe(told.cautions.length);
      const text = buildSheetText(buildSheetOf(demo, each, told));
      for (const said of [told.sentence, ...told.cautions, ...told.works.map(({ sentence }) => sentence)])
        expect(text, each.id).toContain(said);
    }
  });

  test('[F2] warm clearances are estimates beside the cold ones: the gap at the wheel closes, and no verdict rests on it', () => {
    const joint = jointIn(plan('s23'), 'compressor-wheel-and-compressor-housing');
    const radial = joint?.warm.filter(({ sentence }) => sentence.startsWith('Radial'));
    expect(radial).toHaveLength(2);
    for (const point of radial ?? []) {
      expect(point.sentence).toContain('an estimate');
      expect(point.clearance?.warm.least).toBeLessThan(point.clearance?.cold.least ?? Number.NaN);
    }
    const { warmth: _warmth, ...cold } = demo.data;
    expect(joint?.joint).toBe('compressor-wheel-and-compressor-housing' as JointId);
    expect(planBuild({ ...demo, data: cold }, sheet('s23'))).toMatchObject({ kind: 'plan', verdict: plan('s23').verdict });
  });
});
