import { describe, expect, test } from 'vitest';
import type { CompiledJoint } from '../../../reasoner/compile/compiled.ts';
import { type Atlas, compileAtlas, type Operation, type Part } from '../../../reasoner/index.ts';
import { pairJudgeOf } from '../../../reasoner/why/pairs-at-work.ts';
import { choice, feature, littleAtlas } from '../reasoner/little-atlas.ts';

const plain = <T>(value: unknown): T => value as T;

/** A wheel bored 6 whose splines nobody knows; a shaft of 7 with fine splines. */
const splines = { options: ['fine', 'coarse'].map((id) => ({ id, name: id })) } as never;
const remake = (id: string, hours: number, ...features: string[]): Operation =>
  plain({
    id,
    name: id,
    slot: 'wheel',
    does: { kind: 'remake', offers: features.map((each) => ({ feature: each, kind: 'choice', anyOf: ['6', '7', 'fine', 'coarse'] })) },
    takes: [],
    hours,
    turning: false,
    cautions: [],
    source: 'made-up',
  });
const splined = (...operations: Operation[]) =>
  compileAtlas({
    ...littleAtlas,
    operations,
    features: [...littleAtlas.features, feature('wheel.spline', 'choice', splines), feature('shaft.spline', 'choice', splines)],
    joints: littleAtlas.joints.map((joint) =>
      joint.id === plain('stub')
        ? { ...joint, rules: [...joint.rules, plain({ kind: 'same', what: 'splines', a: 'wheel.spline', b: 'shaft.spline' })] }
        : joint,
    ),
    parts: littleAtlas.parts.map((part) =>
      part.id === plain('shaft/cartridge') ? plain<Part>({ ...part, facts: { ...part.facts, 'shaft.spline': choice('fine') } }) : part,
    ),
  } satisfies Atlas);

describe('two parts at a joint, with what the shop can do', () => {
  test('[S1] [A5] work after which it is still not known is passed over for dearer work that comes out right', () => {
    const bore = remake('bore anew', 0.75, 'wheel.bore');
    const both = remake('bore and spline anew', 1.5, 'wheel.bore', 'wheel.spline');
    const fitWith = (...operations: Operation[]) => {
      const atlas = splined(...operations);
      const joint = atlas.joints.find((each) => each.data.id === plain('stub')) as CompiledJoint;
      // The Cod’s wheel on the Ling’s shaft.
      return pairJudgeOf(atlas, new Map())(joint, 0, 2, 'b');
    };
    expect(fitWith(bore, both)).toMatchObject({ kind: 'after work', plan: { hours: 1.5, works: [{ operation: 'bore and spline anew' }] } });
    expect(fitWith(bore)).toMatchObject({ kind: 'not known' });
    expect(fitWith()).toEqual({ kind: 'will not fit' });
  });

  test('[S1] a part that is not in its slot is refused by its number and the joint', () => {
    const atlas = compileAtlas(littleAtlas);
    const judge = pairJudgeOf(atlas, new Map());
    const [contour] = atlas.joints as readonly [CompiledJoint];
    expect(() => judge(contour, 99, 0, 'neither')).toThrow(new RangeError('no part 99 or 0 at joint contour'));
    expect(() => judge(contour, 0, 99, 'neither')).toThrow(new RangeError('no part 0 or 99 at joint contour'));
  });
});
