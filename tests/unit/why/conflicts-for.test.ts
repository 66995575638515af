import { describe, expect, test } from 'vitest';
import { type Atlas, asId, type CompiledAtlas, compileAtlas, type Observation, type Sheet } from '../../../reasoner/index.ts';
import { findRule } from '../../../reasoner/names/ladder.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { conflictsFor, type Effort, membersOf } from '../../../reasoner/why/conflicts-for.ts';
import { number, quayAtlas } from '../plate/quay-atlas.ts';
import { sheetOf } from '../reasoner/little-atlas.ts';
import { seen, yard } from '../reasoner/yard-atlas.ts';

/** The conflicts of a name, each as its members in the order they are given in: `the wheel seen, Cod 1 on wheel`. */
const found = (atlas: CompiledAtlas, name: string, observations: readonly Observation[], effort?: Effort, rest: Partial<Sheet> = {}) => {
  const unit = unitOf(atlas, sheetOf(observations, rest));
  const rule = findRule(unit, asId(name));
  if (rule === undefined) throw new Error(`no name ${name}`);
  const members = membersOf(unit, rule);
  const { found, ...more } = conflictsFor(unit, rule, effort);
  const spoken = (label: number): string => {
    const member = members[label];
    switch (member?.kind) {
      case 'observation':
        return `${member.observation.slice(0, member.observation.indexOf('.'))} seen`;
      case 'joint':
        return member.joint;
      case 'rule':
        return `${member.slot} asked`;
      case 'absent':
        return `${member.slot} missing`;
      default:
        throw new Error(`no member ${label}`);
    }
  };
  return { ...more, found: found.map((labels) => labels.map(spoken).join(', ')) };
};
const atOnce: Effort = { conflicts: 0, questions: Number.POSITIVE_INFINITY };

describe('what is found however soon the search stops', () => {
  const pier = yard({
    families: { Cod: 'Quayside' },
    models: { 'Cod 1': { wheel: 'a', shaft: 'a', front: 'a' }, 'Cod 2': { wheel: 'b', shaft: 'b', front: 'b' } },
    fits: [{ a: 'wheel', b: 'shaft', pairs: ['aa', 'bb'] }],
    without: ['back', 'elbow', 'plate'],
  });
  const wrong = seen({ shaft: 'b', front: 'b' });

  test('[K1] two wrong parts: one reason for each, told by what the name asks of that part and no neighbour', () => {
    expect(found(pier, 'service:cod-1', wrong, atOnce)).toEqual({
      found: ['shaft seen, shaft asked', 'front seen, front asked'],
      complete: false,
      independent: { count: 2, exact: true },
    });
  });

  test('[K1] searched to its end: by the neighbour too, smallest first, and no more reasons than wrong parts', () => {
    expect(found(pier, 'service:cod-1', wrong)).toEqual({
      found: ['shaft seen, shaft asked', 'front seen, front asked', 'shaft seen, fit-0, wheel asked'],
      complete: true,
      independent: { count: 2, exact: true },
    });
  });

  test('[K1] that parts are missing is one thing to say, however many are', () => {
    const { independent } = found(pier, 'service:cod-1', [], atOnce, { absent: [asId('shaft'), asId('front')] });
    expect(independent).toEqual({ count: 1, exact: true });
    const beside = found(pier, 'service:cod-1', seen({ wheel: 'b' }), atOnce, { absent: [asId('shaft'), asId('front')] });
    expect(beside.independent).toEqual({ count: 2, exact: true });
  });

  test('[K1] of two entries that are against it in two ways, what the name asks tells it rather than the joint', () => {
    const mixed = seen({ wheel: 'a', shaft: 'b' });
    expect(found(pier, 'family:cod', mixed, atOnce).found).toEqual(['wheel seen, shaft seen, wheel asked, shaft asked']);
    expect(found(pier, 'family:cod', mixed).found).toEqual([
      'wheel seen, shaft seen, fit-0',
      'wheel seen, shaft seen, wheel asked, shaft asked',
    ]);
  });
});

describe('the members of a conflict', () => {
  test('[K1] [N4] of a family, what its models ask stands in the order of the atlas, whichever model asks it', () => {
    const apart = yard({
      families: { Cod: 'Quayside', Ling: 'Quayside' },
      models: { 'Cod 1': { front: 'a' }, 'Cod 2': { wheel: 'a' }, 'Ling 1': { wheel: 'c', front: 'c' } },
      without: ['shaft', 'back', 'elbow', 'plate'],
    });
    expect(found(apart, 'family:cod', seen({ wheel: 'c', front: 'c' })).found).toEqual([
      'wheel seen, front seen, wheel asked, front asked',
    ]);
  });

  test('[K1] [J1] of three dozen wheels, each on a shaft of its own, the last is told from the others as well as the first', () => {
    const names = Array.from({ length: 36 }, (_, i) => `n${i}`);
    const many = yard({
      families: { Cod: 'Quayside', Ling: 'Quayside' },
      models: {
        'Cod 1': { wheel: names.map((name) => `~${name}`).join(' '), shaft: 'n0' },
        'Ling 1': { wheel: 'n0', shaft: names.join(' ') },
      },
      fits: [{ a: 'wheel', b: 'shaft', pairs: names.map((name) => `${name}:${name}`) }],
      without: ['front', 'back', 'elbow', 'plate'],
    });
    expect(found(many, 'service:cod-1', seen({ wheel: 'n35' })).found).toEqual(['wheel seen, fit-0, shaft asked']);
    expect(found(many, 'service:cod-1', seen({ wheel: 'n35', shaft: 'n35' })).found).toEqual([
      'shaft seen, shaft asked',
      'wheel seen, fit-0, shaft asked',
    ]);
  });
});

describe('a plate whose number is not listed', () => {
  /** The only plate the atlas lists is Cod 1’s. */
  const onlyPlate = (plateFirst: boolean): CompiledAtlas => {
    const { slots, parts, models } = quayAtlas;
    const kept = (id: string) => !id.startsWith('plate/') || id === 'plate/cod-1';
    const isPlate = ({ group }: Atlas['slots'][number]) => group === 'plate';
    return compileAtlas({
      ...quayAtlas,
      slots: plateFirst ? [...slots.filter(isPlate), ...slots.filter((slot) => !isPlate(slot))] : slots,
      parts: parts.filter(({ id }) => kept(id)),
      models: models.map((model) => ({ ...model, allowed: model.allowed.filter(({ part }) => kept(part)) })),
    });
  };

  test('[O5] speaks against the model it cannot be of, be that model’s the only plate listed, and wherever plates stand in the atlas', () => {
    for (const plateFirst of [true, false])
      expect(found(onlyPlate(plateFirst), 'service:cod-1', [number('HB 1234')]).found, `${plateFirst}`).toEqual([
        'plate seen, plate asked',
      ]);
  });
});
