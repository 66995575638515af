import { describe, expect, it } from 'vitest';
import { agrees } from '../../../reasoner/atlas/agree.ts';
import { drawFrom } from '../../../reasoner/drills/draw.ts';
import { swappedUnit } from '../../../reasoner/drills/swapped-unit.ts';
import {
  asGoodAs,
  compileAtlas,
  type Drill,
  type DrillKind,
  drillKinds,
  drillOf,
  explain,
  faultIn,
  fitOf,
  judgeDrill,
  oddsOf,
  questionSheetOf,
  type Response,
  readName,
  type Sheet,
  seedOf,
  topicOf,
  topicsOf,
} from '../../../reasoner/index.ts';
import { littleAtlas } from '../../unit/reasoner/little-atlas.ts';
import { demo, demoAtlas } from '../../unit/seed/demo-atlas.ts';

const topics = topicsOf(demo);
const nameIdOf = (model: string): string => {
  const family = demoAtlas.families.find(({ id }) => id === demoAtlas.models.find((each) => each.id === model)?.family);
  return `${family?.maker == null ? 'pattern' : 'service'}:${model}`;
};

/** Drills of one kind over its topics in turn, a new seed for each. */
const drillsOf = (kind: DrillKind, count: number): Drill[] => {
  const own = topics.filter((topic) => topic.kind === kind);
  const made: Drill[] = [];
  for (let i = 0; made.length < count && i < count * 3; i += 1) {
    const drill = drillOf(demo, own[i % own.length] as (typeof own)[number], seedOf(kind, i));
    if (drill !== null) made.push(drill);
  }
  return made;
};
const hundreds: Readonly<Record<DrillKind, readonly Drill[]>> = {
  looks: drillsOf('looks', 150),
  swapped: drillsOf('swapped', 150),
  name: drillsOf('name', 120),
  check: drillsOf('check', 40),
  descent: drillsOf('descent', 120),
  grammar: drillsOf('grammar', 150),
};
const drills = drillKinds.flatMap((kind) => hundreds[kind]);

/** The model a drill's unit is offered as. */
const claimedIn = ({ claimed }: Sheet): string =>
  demoAtlas.models.find(({ name, family }) => {
    const maker = demoAtlas.families.find(({ id }) => id === family)?.maker;
    return claimed === (maker == null ? name : `${demoAtlas.makers.find(({ id }) => id === maker)?.name} ${name}`);
  })?.id as string;

/** Every choice of so many. */
const choose = (ids: readonly string[], count: number): string[][] =>
  count === 0 ? [[]] : ids.flatMap((id, i) => choose(ids.slice(i + 1), count - 1).map((rest) => [id, ...rest]));

/** Every response there is; of an order, the one accepted and each swap of neighbours in it. */
const responsesTo = (drill: Drill): readonly Response[] => {
  const ids = drill.choices.map(({ id }) => id);
  switch (drill.respond.kind) {
    case 'one':
      return ids.map((id) => [id]);
    case 'several':
      return choose(ids, drill.respond.count);
    case 'order': {
      const [right = []] = judgeDrill(demo, drill, ids).accepted;
      return [
        right,
        ...right.slice(1).map((_, i) => right.map((id, at) => (at === i ? right[i + 1] : at === i + 1 ? right[i] : id) as string)),
      ];
    }
  }
};

describe('drills made endlessly from the atlas', () => {
  it.each(drillKinds)('%s: the atlas gives them by the hundred, and nearly every topic does', (kind) => {
    expect(hundreds[kind].length).toBeGreaterThanOrEqual(kind === 'check' ? 40 : 120);
    const given = new Set(hundreds[kind].map(({ topic }) => topic));
    const own = topics.filter((topic) => topic.kind === kind);
    // A bearing housing or shaft that goes with nothing but its own core is in no drill where the parts have to go together.
    const share = kind === 'swapped' ? 0.75 : 0.85;
    expect(given.size).toBeGreaterThan(share * Math.min(own.length, hundreds[kind].length));
  });

  it('the same seed gives the same drill, over a fresh compiling of the atlas', () => {
    const again = compileAtlas(demoAtlas);
    for (const drill of drills.filter((_, i) => i % 9 === 0)) {
      expect(drillOf(again, topicOf(again, drill.topic) as (typeof topics)[number], drill.seed)).toEqual(drill);
    }
  });

  it('other seeds give other drills', () => {
    const said = drills.map(({ topic, question, shown, choices }) => JSON.stringify([topic, question, shown, choices]));
    expect(new Set(said).size).toBeGreaterThan(0.9 * said.length);
  });

  it('no choice is repeated, in id or in words', () => {
    for (const { choices } of drills) {
      expect(new Set(choices.map(({ id }) => id)).size).toBe(choices.length);
      expect(new Set(choices.map(({ text }) => text)).size).toBe(choices.length);
    }
  });

  it('every drill has a right answer and a wrong one; right is exactly what is accepted; a wrong one is explained and said to be taken for something', () => {
    for (const drill of drills) {
      const judged = responsesTo(drill).map((response) => ({ response, ...judgeDrill(demo, drill, response) }));
      expect(judged.some(({ right }) => right)).toBe(true);
      expect(judged.some(({ right }) => !right)).toBe(true);
      for (const { response, right, accepted, sentences, confused } of judged) {
        if (drill.respond.kind !== 'order')
          expect(accepted.some((each) => [...each].sort().join() === [...response].sort().join())).toBe(right);
        expect(sentences.length).toBeGreaterThan(right ? 0 : 1);
        expect(sentences.every((sentence) => /[.!?]$/.test(sentence))).toBe(true);
        expect(confused === null).toBe(right);
      }
    }
  });

  it('a response that is none to the drill is refused, never judged', () => {
    for (const drill of drills.filter((_, i) => i % 20 === 0)) {
      expect(faultIn(drill, ['nothing of the kind'])).toContain('none of the choices');
      expect(() => judgeDrill(demo, drill, [])).toThrow('asks for');
    }
  });
});

describe('what is right, by the reasoner’s public answers', () => {
  it('[N1] looks: a model is right when its name is not ruled out, and a wrong one is, with its conflicts', () => {
    for (const drill of hundreds.looks) {
      for (const { id } of drill.choices) {
        const { status, conflicts } = explain(demo, drill.sheet as Sheet, nameIdOf(id) as never);
        const { right, sentences } = judgeDrill(demo, drill, [id]);
        expect(right).toBe(status !== 'ruled out');
        if (!right) expect(conflicts?.found.map(({ sentence }) => sentence)).toEqual(expect.arrayContaining(sentences.slice(1)));
      }
      expect(drill.shown.some(({ slot }) => slot === 'nameplate')).toBe(false);
      expect((drill.sheet as Sheet).observations.some(({ value }) => value.kind === 'mark')).toBe(false);
    }
  });

  it('[S1] swapped: right is a minimal swap set, and after a wrong one the name is still ruled out or less would do', () => {
    for (const drill of hundreds.swapped) {
      const sheet = drill.sheet as Sheet;
      const { swaps } = explain(demo, sheet, nameIdOf(claimedIn(sheet)) as never);
      const sets = swaps?.found.map(({ slots }) => [...slots].sort().join()) ?? [];
      for (const response of responsesTo(drill)) {
        expect(judgeDrill(demo, drill, response).right).toBe(sets.includes([...response].sort().join()));
      }
    }
  });

  it('[J1] swapped: the parts go together, by the dimensions of their faces, and what is shown of each is true of it', () => {
    let joints = 0;
    let together = 0;
    for (const topic of topics) {
      if (topic.kind !== 'swapped') continue;
      for (let i = 0; i < 6; i += 1) {
        const draw = drawFrom(seedOf(topic.id, i));
        const model = draw.any(demoAtlas.models.filter(({ family }) => family === topic.family)) as (typeof demoAtlas.models)[number];
        const rule = demo.names.find(({ name }) => name.id === nameIdOf(model.id)) as (typeof demo.names)[number];
        const slot = demo.slotNumber.get(topic.slot) as number;
        const unit = swappedUnit(demo, model, rule, slot, draw);
        if (unit === null) continue;
        const partOf = (number: number) => {
          const part = unit.parts[number] ?? null;
          return part === null ? null : (demo.slots[number]?.parts[part] ?? null);
        };
        for (const { data: joint, a, b } of demo.joints) {
          const [left, right] = [partOf(a), partOf(b)];
          if (left === null || right === null) continue;
          joints += 1;
          // Judged in full from the parts' own facts (F2), not from the compiled table the drill is made by.
          expect(fitOf(demo, joint.id, left.id, right.id).verdict, `${topic.id} ${i}: ${joint.name}`).not.toBe('will not fit');
        }
        expect(unit.told[0]?.slot).toBe(topic.slot);
        if (unit.told.length > 1) together += 1;
        for (const seen of unit.told) {
          const part = partOf(demo.slotNumber.get(seen.slot) as number);
          const feature = demoAtlas.features.find(({ id }) => id === seen.feature);
          expect(agrees(feature as never, part?.facts[seen.feature] as never, seen)).toBe('holds');
        }
      }
    }
    expect(joints).toBeGreaterThan(3000);
    expect(together, 'some need several slots exchanged to go together').toBeGreaterThan(50);
  });

  it('[Q1] check: right is a rate within a tenth of the best, and what is offered as wrong is far from it', () => {
    for (const drill of hundreds.check) {
      const odds = oddsOf(demo, drill.sheet as Sheet);
      if (odds.kind !== 'odds') throw new Error('contradicted');
      const best = odds.checks[0]?.rate as number;
      for (const { id } of drill.choices) {
        const share = (odds.checks.find(({ feature }) => feature === id)?.rate as number) / best;
        expect(judgeDrill(demo, drill, [id]).right).toBe(share >= asGoodAs);
        expect(share >= asGoodAs || share < 0.6).toBe(true);
      }
    }
  });

  it('[N6] grammar: a text is a name when the maker’s grammar reads it without fault', () => {
    for (const drill of hundreds.grammar) {
      const maker = drill.topic.slice('grammar:'.length) as never;
      const wanted = drill.question.includes('can be a name');
      for (const { id } of drill.choices) {
        const { verdict, faults } = readName(demo, id, maker);
        const name = verdict === 'a model of the atlas' || verdict === 'well formed, not in the atlas';
        expect(name).toBe(faults.length === 0);
        expect(judgeDrill(demo, drill, [id]).right).toBe(name === wanted);
      }
    }
  });

  it('descent: an order is right when no earlier one came of a later one, held against the lines as the pack has them', () => {
    const ancestorsOf = (key: string): string[] => {
      const [kind, id] = key.split(':') as [string, string];
      const generation = kind === 'generation' ? demoAtlas.generations.find((each) => each.id === id) : undefined;
      const family = demoAtlas.families.find((each) => each.id === (generation?.family ?? id));
      const direct =
        generation?.succeeds != null
          ? [`generation:${generation.succeeds}`]
          : [...(family?.succeeds ?? []), ...(family?.descendsFrom ?? []), ...(family?.patternOf ?? [])].map((each) => `family:${each}`);
      return direct.flatMap((each) => [each, ...ancestorsOf(each)]);
    };
    for (const drill of hundreds.descent) {
      for (const response of responsesTo(drill)) {
        const fits = response.every((id, i) => response.slice(i + 1).every((later) => !ancestorsOf(id).includes(later)));
        expect(judgeDrill(demo, drill, response).right).toBe(fits);
      }
    }
  });
});

describe('[D5] drills by eye, for beginners', () => {
  const byEye = topicsOf(demo, { families: null, kinds: null, level: 'by eye' });
  const ofKind = (kind: DrillKind, count: number): Drill[] => {
    const own = byEye.filter((topic) => topic.kind === kind);
    return Array.from({ length: count }, (_, i) => own[(i * 7) % own.length] as (typeof own)[number]).flatMap(
      (topic, i) => drillOf(demo, topic, seedOf('by eye', i)) ?? [],
    );
  };
  const made = { looks: ofKind('looks', 40), swapped: ofKind('swapped', 40), name: ofKind('name', 15), check: ofKind('check', 12) };
  const all = [...Object.values(made).flat(), ...ofKind('grammar', 4), ...ofKind('descent', 4)];

  it('the same topics are learnt, under ids of their own, and nearly all of them give drills', () => {
    expect(byEye.map(({ text }) => text)).toEqual(topics.map(({ text }) => text));
    expect(
      byEye.every(
        ({ id, level }) => level === 'by eye' && topicOf(demo, id)?.level === 'by eye' && !topics.some((topic) => topic.id === id),
      ),
    ).toBe(true);
    expect(all.every(({ level }) => level === 'by eye')).toBe(true);
    expect(made.looks.length).toBeGreaterThan(35);
    expect(made.check.length).toBeGreaterThan(9);
    expect(made.swapped.length).toBeGreaterThan(30);
  });

  it('no figure anywhere is finer than a whole millimetre, nor asks for an instrument', () => {
    for (const drill of all) {
      const judged = responsesTo(drill).map((response) => judgeDrill(demo, drill, response));
      const said = [drill.question, ...drill.shown.flatMap(({ says }) => says), ...drill.choices.map(({ text }) => text)];
      for (const sentence of [...said, ...judged.flatMap(({ sentences }) => sentences)]) expect(sentence).not.toMatch(/\d[.,]\d/);
      const drawn = [
        ...drill.shown.map(({ facts }) => facts),
        ...judged.flatMap(({ showings }) => showings.flatMap(({ sides }) => sides.map(({ facts }) => facts))),
      ];
      for (const fact of drawn.flatMap((facts) => Object.values(facts)))
        if (fact.kind === 'measure') expect([fact.nominal % 1, fact.lower, fact.upper]).toEqual([0, 0, 0]);
      const unmeasured = drill.sheet?.observations.filter(({ value }) => value.kind !== 'measure') ?? [];
      for (const { feature } of unmeasured) expect(demoAtlas.features.find(({ id }) => id === feature)?.instrument).toBeUndefined();
      if (drill.kind === 'check')
        for (const { id } of drill.choices) expect(demoAtlas.features.find((feature) => feature.id === id)?.instrument, id).toBeUndefined();
    }
  });

  it('a size is only shown where it differs by more than 3 mm from what some name offered allows, and there are such sizes', () => {
    let sizes = 0;
    for (const drill of [...made.looks, ...made.swapped]) {
      const sheet = drill.sheet as Sheet;
      const names = drill.kind === 'looks' ? drill.choices.map(({ id }) => nameIdOf(id)) : [nameIdOf(claimedIn(sheet))];
      for (const { slot, feature, value, sure } of sheet.observations) {
        if (value.kind !== 'measure') continue;
        sizes += 1;
        expect([value.value >= 10, value.value % 1, sure]).toEqual([true, 0, { kind: 'measured', u: 1.5 }]);
        const far = names.some((name) => {
          const rule = demo.names.find((each) => each.name.id === name) as (typeof demo.names)[number];
          const number = demo.slotNumber.get(slot) as number;
          return [...(rule.demands[number] ?? [])].every((part) => {
            const fact = demo.slots[number]?.parts[part]?.facts[feature];
            return fact?.kind === 'measure' && (value.value - 3 > fact.nominal + fact.upper || value.value + 3 < fact.nominal + fact.lower);
          });
        });
        expect(far, `${drill.topic} ${drill.seed}: ${feature} ${value.value}`).toBe(true);
      }
    }
    expect(sizes).toBeGreaterThan(10);
  });

  it('[N1] [S1] [Q1] what is right is what the reasoner says of what is shown', () => {
    for (const drill of made.looks)
      for (const { id } of drill.choices)
        expect(judgeDrill(demo, drill, [id]).right).toBe(explain(demo, drill.sheet as Sheet, nameIdOf(id) as never).status !== 'ruled out');
    for (const drill of made.swapped) {
      const { swaps } = explain(demo, drill.sheet as Sheet, nameIdOf(claimedIn(drill.sheet as Sheet)) as never);
      const sets = swaps?.found.map(({ slots }) => [...slots].sort().join()) ?? [];
      for (const response of responsesTo(drill))
        expect(judgeDrill(demo, drill, response).right).toBe(sets.includes([...response].sort().join()));
    }
    for (const drill of made.check) {
      const odds = oddsOf(demo, drill.sheet as Sheet);
      if (odds.kind !== 'odds') throw new Error('contradicted');
      const looks = odds.checks.filter(({ feature, again }) => {
        const {
          kind,
          instrument,
          options = [],
        } = demoAtlas.features.find(({ id }) => id === feature) as (typeof demoAtlas.features)[number];
        return again.length === 0 && kind !== 'measure' && instrument === undefined && options.every(({ name }) => !/\d[.,]\d/.test(name));
      });
      const best = looks[0]?.rate as number;
      for (const { id } of drill.choices) {
        const share = (looks.find(({ feature }) => feature === id)?.rate ?? 0) / best;
        expect(judgeDrill(demo, drill, [id]).right).toBe(share >= asGoodAs);
      }
    }
  });

  it('of several that agree with what is seen each is named: of none of them is said that it does not', () => {
    let several = 0;
    // Models of one family, whose looks may be alike.
    const alike = byEye.filter(({ id }) => ['looks-by-eye:tern+tern', 'looks-by-eye:petrel+petrel'].includes(id));
    for (const drill of alike.flatMap((topic) => [1, 2, 3, 4].flatMap((seed) => drillOf(demo, topic, seed) ?? []))) {
      const right = drill.choices.filter(({ id }) => judgeDrill(demo, drill, [id]).right);
      if (right.length < 2) continue;
      several += 1;
      for (const { id } of right) {
        const [lead = ''] = judgeDrill(demo, drill, [id]).sentences;
        expect(right.filter(({ text }) => !lead.includes(text))).toEqual([]);
      }
    }
    expect(several).toBeGreaterThan(0);
  });

  it('letters are read where they give a swapped part away, and never where the question says there are none', () => {
    const marks = (drill: Drill) => drill.sheet?.observations.filter(({ value }) => value.kind === 'mark').length ?? 0;
    expect(made.swapped.some((drill) => marks(drill) > 0)).toBe(true);
    expect(made.looks.every((drill) => marks(drill) === 0)).toBe(true);
  });
});

describe('other atlases, and sheets of questions', () => {
  it('an atlas of four slots and three models gives drills too, each with a right answer', () => {
    const little = compileAtlas(littleAtlas);
    const made = topicsOf(little).flatMap((topic) => [1, 2, 3].flatMap((seed) => drillOf(little, topic, seed) ?? []));
    expect(new Set(made.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(3);
    for (const drill of made.filter(({ respond }) => respond.kind === 'one')) {
      expect(drill.choices.some(({ id }) => judgeDrill(little, drill, [id]).right)).toBe(true);
    }
  });

  it('a sheet is made again from its number, its answers are right, and it keeps to the families pinned', () => {
    const asked = { number: 11, count: 12, families: ['petrel', 'northquay', 'skua'] as never, kinds: null };
    const quiz = questionSheetOf(demo, asked);
    expect(questionSheetOf(demo, asked)).toEqual(quiz);
    expect(quiz.questions).toHaveLength(12);
    expect(questionSheetOf(demo, { ...asked, number: 12 })).not.toEqual(quiz);
    const scope = new Set(topicsOf(demo, asked).map(({ id }) => id));
    for (const { drill, key } of quiz.questions) {
      expect(scope.has(drill.topic)).toBe(true);
      expect(key.right).toBe(true);
      for (const response of key.accepted) expect(judgeDrill(demo, drill, response).right).toBe(true);
    }
  });
});

it('[A4] a drill cuts names apart whose words and signs are signs of a pattern', () => {
  const odd = 'Ro(wan';
  const said = JSON.stringify(demoAtlas).replaceAll('"Rowan', `"${odd}`);
  const atlas = compileAtlas(JSON.parse(said) as typeof demoAtlas);
  const topic = topicsOf(atlas).find(({ id }) => id === 'grammar:tarnwick');
  if (topic === undefined) throw new Error('no drill on the names of Tarnwick');
  const texts = Array.from({ length: 12 }, (_, seed) => drillOf(atlas, topic, seed)?.choices ?? []).flat();
  expect(texts.some(({ text }) => text.startsWith(`${odd} `))).toBe(true);
});
