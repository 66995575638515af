import { expect, test } from 'vitest';
import { type Atlas, answer, type CompiledAtlas, compileAtlas, type Fact, type Part, recompileAtlas } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { demoAtlas, demoPack } from '../../unit/seed/demo-atlas.ts';

const demoSheets = demoPack.sheets.filter(({ kind }) => kind === 'found');
const runs = Number(process.env.KINPLATE_RUNS ?? 2);

/** All that was compiled of an atlas, worked out to the end. */
const whole = (atlas: CompiledAtlas) => ({
  slots: atlas.slots.map(({ number, data, parts, partNumber, matingOf, matingCount, factsOf, foundOf }) => ({
    ...{ number, data, parts, partNumber, matingOf, matingCount },
    facts: atlas.data.features.flatMap(({ id, slot }) => (slot === data.id ? [[id, factsOf(id), foundOf(id)]] : [])),
  })),
  joints: atlas.joints,
  made: atlas.made(),
  found: {
    slots: atlas.found().slots,
    space: atlas.found().space,
    worked: atlas.found().worked.map(({ joint, a, b, holds }) => [joint, a, b, holds()]),
  },
  names: [atlas.names, atlas.housings, atlas.familyParts],
  maps: [atlas.slotNumber, atlas.makers, atlas.families, atlas.models, atlas.parts, atlas.features, atlas.stages],
});

/** One part says something else, or, now and then, more changes than that. */
const changed = (atlas: Atlas, dice: Dice): Atlas => {
  const part = dice.one(atlas.parts);
  const other = dice.one(atlas.parts.filter(({ slot }) => slot === part.slot));
  const [feature, fact] = dice.one(Object.entries(part.facts) as [string, Fact][]);
  const saying = (said: Fact): Part => ({ ...part, facts: { ...part.facts, [feature]: said } });
  const put = (is: Part): Atlas => ({ ...atlas, parts: atlas.parts.map((each) => (each === part ? is : each)) });
  switch (
    dice.one([
      'size',
      'size',
      'size',
      'as another',
      'not known',
      'gone',
      'name',
      'after',
      'two',
      'turned',
      'turned',
      'new',
      'model',
      'nothing',
    ])
  ) {
    case 'size':
      return put(
        saying(
          fact.kind === 'measure'
            ? { ...fact, nominal: Math.round((fact.nominal + dice.one([0.02, -0.5, 3])) * 1000) / 1000 }
            : { kind: 'not known' },
        ),
      );
    case 'as another':
      return put({ ...part, facts: other.facts });
    case 'not known':
      return put(saying({ kind: 'not known' }));
    case 'gone':
      return put({ ...part, facts: Object.fromEntries(Object.entries(part.facts).filter(([id]) => id !== feature)) as Part['facts'] });
    case 'name':
      return put({ ...part, name: `${part.name} again` });
    case 'after':
      return put({ ...part, supersedes: other.id });
    case 'two': {
      const second = dice.one(atlas.parts);
      const once = put(saying({ kind: 'not known' }));
      return {
        ...once,
        parts: once.parts.map((each) =>
          each === second ? { ...second, facts: dice.one(atlas.parts.filter(({ slot }) => slot === second.slot)).facts } : each,
        ),
      };
    }
    case 'turned':
      return { ...atlas, parts: atlas.parts.map((each) => (each === part ? other : each === other ? part : each)) };
    case 'new':
      return { ...atlas, parts: [...atlas.parts, { ...part, id: `${part.id}-${atlas.parts.length}` as Part['id'] }] };
    case 'model':
      return { ...atlas, models: atlas.models.map((model, at) => (at === 3 ? { ...model, name: `${model.name}x` } : model)) };
    default:
      return { ...atlas, edition: `${atlas.edition}+` };
  }
};

test.each(Array.from({ length: runs }, (_, at) => at + 1))(
  '[B2] [H5] an atlas brought up to date after one change after the other is the one that is compiled anew, and so are its verdicts (seed %i)',
  (seed) => {
    const dice = new Dice(seed);
    let now = compileAtlas(demoAtlas);
    for (let step = 0; step < 25; step += 1) {
      const atlas = changed(now.data, dice);
      // Tables are worked out when they are asked for, before some changes and not before others.
      if (dice.often(60)) answer(now, dice.one(demoSheets));
      now = recompileAtlas(now, atlas);
      expect(now.data).toBe(atlas);
      if (step % 5 !== 4) continue;
      const anew = compileAtlas(atlas);
      const sheet = dice.one(demoSheets);
      expect(answer(now, sheet)).toEqual(answer(anew, sheet));
      expect(whole(now)).toEqual(whole(anew));
    }
  },
);
