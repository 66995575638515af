import { describe, expect, test } from 'vitest';
import {
  type Atlas,
  answer,
  compileAtlas,
  type Feature,
  type FitRule,
  type Observation,
  type Operation,
  type Part,
  planBuild,
  type Sheet,
  type Verdict,
} from '../../../reasoner/index.ts';
import { blades, count, littleAtlas, marked, measured, mm, sheetOf } from './little-atlas.ts';
import { cut, ring } from './shop-operations.ts';

const plain = <T>(value: unknown): T => value as T;
const openBore = cut('open-bore', 'housing.bore', 'larger', 1, { name: 'open the bore' });
const ringBore = ring('ring-bore', 'housing.bore', 0.2, { name: 'press a ring into the bore' });
const turnTip = cut('turn-tip', 'wheel.tip', 'smaller', 0.5, { name: 'turn the wheel down', turning: true });

/** The little atlas with a wheel half a millimetre too large for the Cod housing, and what the shop can do. */
const atlasWith = (...operations: readonly Operation[]) =>
  compileAtlas({
    ...littleAtlas,
    operations,
    parts: [
      ...littleAtlas.parts,
      plain<Part>({
        ...littleAtlas.parts.find(({ id }) => id === plain('wheel/cod')),
        id: 'wheel/large',
        name: 'large',
        facts: { 'wheel.blades': count(9), 'wheel.tip': mm(41) },
      }),
    ],
  } satisfies Atlas);

/** The same with every part of a slot of one size, but for one part. */
const sized = (
  { data }: ReturnType<typeof atlasWith>,
  sizes: Readonly<Record<string, readonly [feature: string, size: number]>>,
  but = '',
) =>
  compileAtlas({
    ...data,
    parts: data.parts.map((part) => {
      const size = sizes[part.slot];
      return size === undefined || part.id === plain(but) ? part : { ...part, facts: { ...part.facts, [size[0]]: mm(size[1]) } };
    }),
  });

const verdictOn = (atlas: ReturnType<typeof atlasWith>, observations: readonly Observation[], rest: Partial<Sheet> = {}): Verdict => {
  const verdict = answer(atlas, sheetOf(observations, rest));
  if (verdict.kind !== 'verdict') throw new Error('contradictory');
  return verdict;
};
const slotOf = ({ slots }: Verdict, id: string) => slots.find(({ slot }) => slot === plain(id));
const machinedSaid = ({ findings }: Verdict): readonly string[] =>
  findings.flatMap((finding) => (finding.kind === 'machined' ? [finding.sentence] : []));
const membersOf = (conflicts: Verdict['unit']): readonly string[] =>
  conflicts.found.map(({ members }) =>
    members
      .map((member) =>
        member.kind === 'observation' ? member.observation.split('=')[0] : member.kind === 'joint' ? member.joint : member.kind,
      )
      .sort()
      .join(' '),
  );
const pairedWith = (rule: FitRule, housing: Feature['id']): FitRule =>
  rule.kind === 'wheel to contour' ? { ...rule, pairs: rule.pairs.map((pair) => ({ ...pair, housing })) } : rule;
const codHousing = marked('housing.cast-name', 'QUAY AIR');

describe('[O2] a size that an operation could have left', () => {
  test('[O2] keeps the part, machined; without the operation, the other way or farther than it goes it is no listed part', () => {
    const opened = [codHousing, measured('housing.bore', 41.4)];
    const housing = slotOf(verdictOn(atlasWith(openBore), opened), 'housing');
    expect(housing?.candidates).toEqual(['housing/cod']);
    expect(housing?.machined).toEqual([{ part: 'housing/cod', told: [{ observations: [opened[1]?.id], operations: ['open-bore'] }] }]);
    expect(slotOf(verdictOn(atlasWith(), opened), 'housing')?.candidates).toEqual([]);
    expect(slotOf(verdictOn(atlasWith(turnTip), opened), 'housing')?.candidates).toEqual([]);
    for (const size of [40.3, 41.9]) {
      expect(
        slotOf(verdictOn(atlasWith(openBore), [codHousing, measured('housing.bore', size)]), 'housing')?.candidates,
        `${size}`,
      ).toEqual([]);
    }
    // Worn 0.1 beyond what was bored, and read 0.04 farther: just so.
    expect(slotOf(verdictOn(atlasWith(openBore), [codHousing, measured('housing.bore', 41.79)]), 'housing')?.candidates).toEqual([
      'housing/cod',
    ]);
  });

  test('[O1] [O2] told of a size that an operation could have left, it is neither so nor not so', () => {
    const toldOf = (size: number) => {
      const told: Observation = { ...measured('housing.bore', size), sure: { kind: 'told' } };
      return verdictOn(atlasWith(openBore, ringBore), [codHousing, told]).findings.map((finding) =>
        finding.kind === 'told claim' ? finding.truth : finding.kind,
      );
    };
    // Made with 40.6; the bore can be opened by a millimetre and no more.
    expect([toldOf(40.6), toldOf(41.4), toldOf(44)]).toEqual([['holds'], ['not confirmed'], ['fails']]);
  });

  test('[O2] [J1] that something was machined is told with what was seen of it, and at a joint with nothing but the joint', () => {
    const bore = measured('housing.bore', 41.4);
    const machined = (verdict: Verdict) => verdict.findings.filter(({ kind }) => kind === 'machined');
    expect(machined(verdictOn(atlasWith(openBore), [codHousing, bore]))).toMatchObject([
      { slots: ['housing'], operations: ['open-bore'], observations: [bore.id], joint: null },
    ]);
    expect(machined(verdictOn(atlasWith(openBore), [codHousing, blades(9)]))).toMatchObject([
      { slots: ['housing'], operations: ['open-bore'], observations: [], joint: 'contour' },
    ]);
  });

  test('[J1] of housings all read as made, a wheel that goes into one only when that is opened falls out, though every housing has another wheel', () => {
    const alike = sized(atlasWith(openBore), { housing: ['housing.bore', 40.6] });
    const [unread, read] = [[], [measured('housing.bore', 40.6)]].map((seen) => verdictOn(alike, seen));
    expect(slotOf(unread as Verdict, 'wheel')?.candidates).toContain('wheel/large');
    expect(slotOf(read as Verdict, 'housing')?.candidates).toEqual(slotOf(unread as Verdict, 'housing')?.candidates);
    expect(slotOf(read as Verdict, 'wheel')?.candidates).not.toContain('wheel/large');
    expect(slotOf(read as Verdict, 'wheel')?.candidates).toContain('wheel/cod');
  });

  test('[J1] of wheels all read as made, a housing that takes one only when that is turned down falls out, though every wheel has another housing', () => {
    const alike = sized(atlasWith(turnTip), { wheel: ['wheel.tip', 41], housing: ['housing.bore', 41.6] }, 'housing/cod');
    const [unread, read] = [[], [measured('wheel.tip', 41)]].map((seen) => verdictOn(alike, seen));
    expect(slotOf(unread as Verdict, 'housing')?.candidates).toContain('housing/cod');
    expect(slotOf(read as Verdict, 'wheel')?.candidates).toEqual(slotOf(unread as Verdict, 'wheel')?.candidates);
    expect(slotOf(read as Verdict, 'housing')?.candidates).not.toContain('housing/cod');
    expect(slotOf(read as Verdict, 'housing')?.candidates).toContain('housing/ling');
  });

  test('[O2] within the limits it says of no work', () => {
    const verdict = verdictOn(atlasWith(openBore), [codHousing, measured('housing.bore', 40.6)]);
    expect([slotOf(verdict, 'housing')?.candidates, slotOf(verdict, 'housing')?.machined, machinedSaid(verdict)]).toEqual([
      ['housing/cod'],
      [],
      [],
    ]);
  });

  test('[O2] machined is said, with what could have been done, once every part left is so', () => {
    const one = verdictOn(atlasWith(openBore, ringBore), [codHousing, measured('housing.bore', 41.4)]);
    expect(machinedSaid(one)).toEqual([
      'The compressor housing is a cod, machined: it is not made with a bore of 41.4 mm (±0.04), which “open the bore” could have left.',
    ]);
    const several = verdictOn(atlasWith(openBore), [measured('housing.bore', 41.4)]);
    expect(machinedSaid(several)).toEqual([
      'The compressor housing was machined, whichever of the 2 parts left it is: it is not made with a bore of 41.4 mm (±0.04), which “open the bore” could have left.',
    ]);
    const either = verdictOn(atlasWith(openBore), [measured('housing.bore', 41)]);
    expect(slotOf(either, 'housing')?.candidates).toEqual(['housing/cod', 'housing/cod-wide']);
    expect(slotOf(either, 'housing')?.machined.map(({ part }) => part)).toEqual(['housing/cod']);
    expect(machinedSaid(either), 'the wide one is made so').toEqual([]);
  });

  test('[W1] [O2] the ticket says what was machined, and that the unit is not to be called unmodified', () => {
    const { ticket, findings } = verdictOn(atlasWith(openBore), [codHousing, measured('housing.bore', 41.4), blades(8)]);
    const at = findings.findIndex(({ kind }) => kind === 'machined');
    const may = ticket.may.find(({ text }) => text === 'This unit’s compressor housing was machined.');
    const must = ticket.mustNot.find(
      ({ text }) => text === 'This unit must not be described as unmodified: its compressor housing was machined.',
    );
    expect(may?.because).toContainEqual({ kind: 'finding', index: at });
    expect(must?.because).toContainEqual({ kind: 'finding', index: at });
    const parts = verdictOn(atlasWith(openBore), [codHousing, measured('housing.bore', 41.4), blades(9)]).ticket.may.map(
      ({ text }) => text,
    );
    expect(parts.some((text) => text.includes('compressor housing (cod, machined)'))).toBe(true);
  });

  test('[O2] two readings that differ, one left by work and one as made, exclude the part together', () => {
    const made = measured('housing.bore', 40.5, 0.05);
    const ringed = measured('housing.bore', 40.3, 0.05);
    const verdict = verdictOn(atlasWith(ringBore), [codHousing, made, ringed]);
    expect(slotOf(verdict, 'housing')?.candidates).toEqual([]);
    expect(membersOf(verdict.unit)).toContain('housing.bore housing.bore housing.cast-name');
    for (const one of [made, ringed])
      expect(slotOf(verdictOn(atlasWith(ringBore), [codHousing, one]), 'housing')?.candidates).toEqual(['housing/cod']);
  });
});

describe('[J1] a joint that holds after work', () => {
  test('[J1] removes nothing, and one of the two was machined: which, is said only where it is known', () => {
    const both = verdictOn(atlasWith(openBore, turnTip), [codHousing, blades(9)]);
    expect([slotOf(both, 'housing')?.candidates, slotOf(both, 'wheel')?.candidates]).toEqual([['housing/cod'], ['wheel/large']]);
    expect(machinedSaid(both)).toEqual([
      'The compressor wheel or the compressor housing was machined, or both: as made, nothing that is left fits at the joint wheel in housing; “open the bore” or “turn the wheel down” could have made it fit. The rotor must be balanced again after any work on a part that turns, and before it is run.',
    ]);
    expect(both.ticket.may.map(({ text }) => text)).toContain('This unit’s compressor wheel or compressor housing was machined, or both.');
    const housing = verdictOn(atlasWith(openBore), [codHousing, blades(9)]);
    expect(machinedSaid(housing)).toEqual([
      'The compressor housing was machined: as made, nothing that is left fits at the joint wheel in housing; “open the bore” could have made it fit.',
    ]);
    expect(slotOf(verdictOn(atlasWith(), [codHousing, blades(9)]), 'wheel')?.doubtful).toBe(true);
  });

  test('[J1] is said with what could have made it fit, not with what else could be done there', () => {
    const depth = plain<Feature>({
      ...littleAtlas.features.find(({ id }) => id === plain('housing.bore')),
      id: 'housing.depth',
      name: 'depth',
    });
    const deepen = cut('deepen', 'housing.depth', 'larger', 0.5, { name: 'deepen the contour' });
    const { data: atlas } = atlasWith(openBore, deepen);
    const verdict = verdictOn(
      compileAtlas({
        ...atlas,
        features: [...atlas.features, depth],
        joints: atlas.joints.map((joint) =>
          joint.id === plain('contour')
            ? { ...joint, rules: [...joint.rules, ...joint.rules.map((rule) => pairedWith(rule, depth.id))] }
            : joint,
        ),
        parts: atlas.parts.map((part) =>
          part.id === plain('housing/cod') ? { ...part, facts: { ...part.facts, [depth.id]: mm(42) } } : part,
        ),
      }),
      [codHousing, blades(9)],
    );
    expect(verdict.findings.flatMap((finding) => (finding.kind === 'machined' ? [finding.operations] : []))).toEqual([['open-bore']]);
  });

  test('[J1] [K1] a size read as made says it was not, and is then part of the reason', () => {
    const read = measured('housing.bore', 40.6);
    const verdict = verdictOn(atlasWith(openBore), [codHousing, read, blades(9)]);
    expect([slotOf(verdict, 'housing')?.doubtful, slotOf(verdict, 'wheel')?.doubtful]).toEqual([true, true]);
    expect(membersOf(verdict.unit)).toEqual(['contour housing.bore wheel.blades']);
    expect(machinedSaid(verdict)).toEqual([]);
    const other = verdictOn(atlasWith(openBore, turnTip), [codHousing, read, blades(9)]);
    expect(machinedSaid(other)[0]).toMatch(/^The compressor wheel was machined: /);
    // With the wheel read as made too, both readings are needed: either part could have been machined but for them.
    const both = [codHousing, read, blades(9), measured('wheel.tip', 41)];
    expect(membersOf(verdictOn(atlasWith(openBore, turnTip), both).unit)).toEqual(['contour housing.bore wheel.tip']);
  });

  test('[J1] a size read as left says that it was, and nothing more is said of the joint', () => {
    const verdict = verdictOn(atlasWith(openBore, turnTip), [codHousing, measured('housing.bore', 41.4), blades(9)]);
    expect(machinedSaid(verdict)).toHaveLength(1);
    expect(machinedSaid(verdict)[0]).toMatch(/^The compressor housing is a cod, machined: /);
  });
});

describe('[J2] a part in hand that was machined before', () => {
  test('[J2] [O2] keeps its name, is judged by what was measured and is called machined', () => {
    const chosen = plain<Sheet['chosen']>({ housing: 'housing/cod', wheel: 'wheel/large', shaft: 'shaft/journal-old', plate: 'plate/cod' });
    const plan = planBuild(atlasWith(openBore), sheetOf([measured('housing.bore', 41.4)], { kind: 'planned', chosen }));
    if (plan.kind !== 'plan') throw new Error('contradictory');
    const housing = plan.slots.find(({ slot }) => slot === plain('housing'));
    expect([housing?.machined, housing?.stranger, housing?.text]).toEqual([true, false, 'Quayside cod, machined']);
    expect([plan.works, plan.joints.find(({ joint }) => joint === plain('contour'))?.verdict]).toEqual([[], 'drops in']);
    expect(plan.findings.map(({ sentence }) => sentence)).toEqual([
      'The part in hand has a bore of 41.4 mm (±0.04), which is not as the cod is made: it was machined before. It is judged by what was measured and keeps its name.',
    ]);
    expect(plan.ticket.mustNot.map(({ text }) => text)).toContain(
      'This unit must not be described as unmodified: the compressor housing was machined before.',
    );
    const stranger = planBuild(atlasWith(openBore), sheetOf([measured('housing.bore', 43)], { kind: 'planned', chosen }));
    expect(stranger.kind === 'plan' && stranger.slots.filter((each) => each.stranger).map(({ slot }) => slot)).toEqual(['housing']);
  });
});
