import { describe, expect, it } from 'vitest';
import { answer, asId, compileAtlas, explain, type NameId, type Observation, type Sheet, type Verdict } from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, marked, measured, saw, sheetOf } from './little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const verdictOn = (observations: readonly Observation[], rest: Partial<Sheet> = {}): Verdict => {
  const found = answer(atlas, sheetOf(observations, rest));
  if (found.kind !== 'verdict') throw new Error('contradicted');
  return found;
};
const statusOf = (verdict: Verdict, id: string) => verdict.names.find(({ name }) => name.id === id)?.status;
const slotOf = (verdict: Verdict, id: string) => verdict.slots.find(({ slot }) => slot === id);
const name = (id: string): NameId => asId<NameId>(id);

const wholeLing = [
  marked('housing.cast-name', 'QUAYSIDE'),
  measured('housing.bore', 50.6),
  blades(6),
  chose('shaft.weld', 'beam'),
  marked('plate.number', '5-50'),
];

describe('observations', () => {
  it('[O1] what is told changes no status and is tested against what was seen', () => {
    const told = saw('wheel.blades', { kind: 'count', from: 7, to: 7 }, { kind: 'told' });
    const without = verdictOn(wholeLing);
    const withTold = verdictOn([...wholeLing, told]);
    expect(withTold.names.map(({ status }) => status)).toEqual(without.names.map(({ status }) => status));
    expect(withTold.findings).toEqual([
      {
        kind: 'told claim',
        observation: told.id,
        truth: 'fails',
        sentence: 'Told that the compressor wheel has 7 blades: what was seen says otherwise.',
      },
    ]);
  });

  it('[O2] a measure agrees while ±2u reaches the limits widened by wear, and no further', () => {
    // Limits 40.55 to 40.65, worn up to 40.75; ±2u = 0.04.
    expect(slotOf(verdictOn([measured('housing.bore', 40.79)]), 'housing')?.candidates).toContain('housing/cod');
    expect(slotOf(verdictOn([measured('housing.bore', 40.8)]), 'housing')?.candidates).not.toContain('housing/cod');
    expect(slotOf(verdictOn([measured('housing.bore', 40.51)]), 'housing')?.candidates).toContain('housing/cod');
    expect(slotOf(verdictOn([measured('housing.bore', 40.5)]), 'housing')?.candidates).not.toContain('housing/cod');
  });

  it('[O3] a part the atlas is silent about stays, and its silence is counted', () => {
    const shaft = slotOf(verdictOn([chose('shaft.bearing', 'cartridge')]), 'shaft');
    expect(shaft?.candidates).toEqual(['shaft/cartridge', 'shaft/lane']);
    expect(shaft?.silent).toEqual([{ part: 'shaft/lane', features: ['shaft.bearing'] }]);
  });

  it('[O4] a maker’s name on what is otherwise a pattern part is said, in words that do not confuse counterfeit with non-genuine', () => {
    const marked7 = verdictOn([blades(7), marked('wheel.cast-mark', 'Quayside')]);
    expect(marked7.findings.find(({ kind }) => kind === 'mark')).toMatchObject({
      wouldBe: ['wheel/lane'],
      reading: 'maker’s name on a pattern part',
    });
    expect(marked7.ticket.mustNot.map(({ text }) => text).join()).toContain('merely non-genuine');
    const unmarked = verdictOn([blades(7), marked('wheel.cast-mark', null)]);
    expect(unmarked.findings.filter(({ kind }) => kind === 'mark')).toEqual([]);
    expect(unmarked.ticket.mustNot.map(({ text }) => text).join()).toContain('as counterfeit');
  });

  it('[O4] letters the maker always casts, missing, are an observation too', () => {
    const bare = verdictOn([blades(8), marked('wheel.cast-mark', null)]);
    expect(bare.findings.find(({ kind }) => kind === 'mark')).toMatchObject({
      wouldBe: ['wheel/cod'],
      reading: 'no name where the maker casts one',
    });
  });

  it('[O4] marks are read without regard to case, spaces and signs', () => {
    expect(slotOf(verdictOn([marked('housing.cast-name', 'quay-air')]), 'housing')?.candidates).toEqual(['housing/cod']);
  });

  it('[O5] a plate whose number and trade name belong to different plates disagrees with itself', () => {
    const verdict = verdictOn([marked('plate.number', '5-50'), marked('plate.trade-name', 'Quay Air')]);
    const plate = verdict.findings.find(({ kind }) => kind === 'plate');
    expect(plate?.sentence).toContain('does not agree with itself');
    expect(slotOf(verdict, 'plate')?.doubtful).toBe(true);
  });

  it('[O6] two observations that cannot both hold are all that is answered', () => {
    const found = answer(atlas, sheetOf([blades(6), blades(8), measured('wheel.tip', 50), measured('wheel.tip', 50.07)]));
    expect(found.kind).toBe('contradiction');
    if (found.kind !== 'contradiction') return;
    expect(found.contradictions.map(({ observations }) => observations)).toEqual([[blades(6).id, blades(8).id]]);
    expect(found.contradictions[0]?.sentence).toContain('6 blades and 8 blades');
  });

  it('[O1] what tells of repair and not of origin says so and decides nothing', () => {
    const patch = saw('shaft.welded-patch', { kind: 'presence', present: true });
    const verdict = verdictOn([...wholeLing, patch]);
    expect(verdict.findings).toEqual([{ kind: 'remark', observation: patch.id, sentence: 'A welded patch shows repair, not origin.' }]);
    expect(verdict.honest).toEqual(verdictOn(wholeLing).honest);
  });
});

describe('candidates and joints', () => {
  it('[J1] parts without a partner across a joint fall out, and the joint that removed each is kept', () => {
    const verdict = verdictOn([blades(8)]);
    expect(slotOf(verdict, 'shaft')?.candidates).toEqual(['shaft/journal-old', 'shaft/journal-new']);
    expect(slotOf(verdict, 'shaft')?.removedByJoints).toEqual([
      { part: 'shaft/cartridge', because: { kind: 'joint', joint: 'stub', other: 'wheel' } },
      { part: 'shaft/lane', because: { kind: 'joint', joint: 'stub', other: 'wheel' } },
    ]);
    expect(slotOf(verdict, 'housing')?.candidates).toEqual(['housing/cod', 'housing/cod-wide']);
  });

  it('[J3] where nothing listed agrees the slot holds an unlisted part, which fits everything', () => {
    const verdict = verdictOn([blades(13), chose('shaft.end', '7')]);
    expect(slotOf(verdict, 'wheel')).toMatchObject({ candidates: [], doubtful: true });
    expect(slotOf(verdict, 'shaft')?.candidates).toEqual(['shaft/cartridge', 'shaft/lane']);
    expect(verdict.findings.map(({ kind }) => kind)).toContain('unlisted part');
  });

  it('[J1] a unit that disagrees with itself shows the conflict before any name', () => {
    const verdict = verdictOn([blades(8), chose('shaft.end', '7')]);
    expect(verdict.unit.found.map(({ members }) => members)).toEqual([
      [
        { kind: 'observation', observation: blades(8).id },
        { kind: 'observation', observation: chose('shaft.end', '7').id },
        { kind: 'joint', joint: 'stub' },
      ],
    ]);
    expect(verdict.slots.filter(({ doubtful }) => doubtful).map(({ slot }) => slot)).toEqual(['wheel', 'shaft']);
  });
});

describe('names', () => {
  it('[N3] a model stands when only its own parts remain in every naming slot, its plate among them', () => {
    const verdict = verdictOn(wholeLing);
    expect(verdict.honest).toEqual(['model:ling-3-cartridge']);
    expect(verdict.open).toEqual([]);
    expect(verdict.cautions[0]).toContain('pattern part unknown to the atlas');
  });

  it('[N2] a name is open while both its own and other parts remain, and the slots to settle are listed', () => {
    const verdict = verdictOn([measured('housing.bore', 50.6)]);
    const ling = verdict.names.find(({ name: { id } }) => id === 'service:ling-3-cartridge');
    expect(ling).toMatchObject({ status: 'open', unsettled: ['wheel', 'shaft', 'plate'] });
  });

  it('[N1] a name is ruled out when no choice of listed parts meets it', () => {
    expect(statusOf(verdictOn([blades(8)]), 'service:ling-3-cartridge')).toBe('ruled out');
    expect(statusOf(verdictOn([blades(8)]), 'service:cod-1')).toBe('open');
  });

  it('[A3] a part that supersedes a listed one may sit in its place', () => {
    const cod = [marked('housing.cast-name', 'QUAY AIR'), blades(8), marked('plate.number', '4-40')];
    expect(slotOf(verdictOn(cod), 'shaft')?.candidates).toContain('shaft/journal-new');
    expect(verdictOn(cod).honest).toEqual(['model:cod-1']);
  });

  it('[A3] [N4] an option keeps the model’s name, one rung lower', () => {
    const verdict = verdictOn([measured('housing.bore', 41.08), blades(8), marked('plate.number', '4-40')]);
    expect(verdict.honest).toEqual(['options:cod-1']);
  });

  it('[N4] another family’s housing makes an honest hybrid, never the model', () => {
    const wider = { ...littleAtlas, joints: littleAtlas.joints.filter(({ id }) => id !== 'contour') };
    const found = answer(compileAtlas(wider), sheetOf([blades(8), measured('housing.bore', 50.6), marked('plate.number', '4-40')]));
    if (found.kind !== 'verdict') throw new Error('contradicted');
    expect(found.names.find(({ name: { id } }) => found.honest.includes(id))?.name).toMatchObject({
      rung: 'hybrid',
      text: 'core of Quayside Cod 1 with a compressor housing of Quayside Ling',
    });
    expect(found.names.find(({ name: { id } }) => id === 'service:cod-1')?.status).toBe('ruled out');
  });

  it('[N4] without its plate all its parts are named, and what is to be said of the plate', () => {
    const verdict = verdictOn([measured('housing.bore', 50.6), blades(6), chose('shaft.weld', 'beam')], {
      absent: [asId('plate')],
    });
    expect(verdict.names.find(({ name: { id } }) => verdict.honest.includes(id))?.name.text).toBe(
      'all parts of Quayside Ling 3 Cartridge, nameplate missing',
    );
    expect(verdict.unit.found).toEqual([]);
  });

  it('[N5] a nameless core under a marked housing carries no maker’s name', () => {
    const verdict = verdictOn([marked('housing.cast-name', 'QUAYSIDE'), blades(7), saw('shaft.end', { kind: 'choice', option: '7' })], {
      absent: [asId('plate')],
    });
    expect(verdict.names.filter(({ status, name: { maker } }) => status === 'stands' && maker !== null)).toEqual([]);
    expect(verdict.ticket.mustNot.map(({ text }) => text)).toContain(
      'This unit must not be described as a Quayside unit: the name is on the compressor housing and says nothing of the rest.',
    );
  });

  it('[N4] a name read again by its id is judged and explained the same', () => {
    const sheet = sheetOf([blades(8)]);
    const explained = explain(atlas, sheet, name('service:ling-3-cartridge'));
    expect(explained.status).toBe('ruled out');
    expect(explained.conflicts?.complete).toBe(true);
    expect(() => explain(atlas, sheet, name('service:no-such-model'))).toThrow('no name has the id');
  });
});

describe('why', () => {
  it('[K1] [K2] the smallest conflict is one observation against one demand, in one sentence', () => {
    const conflicts = explain(atlas, sheetOf([blades(8)]), name('service:ling-3-cartridge')).conflicts?.found ?? [];
    expect(conflicts[0]).toMatchObject({
      members: [
        { kind: 'observation', observation: blades(8).id },
        { kind: 'rule', name: 'service:ling-3-cartridge', slot: 'wheel' },
      ],
      minutes: 15,
      stage: 'housing-off',
      sentence: 'The compressor wheel has 8 blades; every compressor wheel listed for Quayside Ling 3 Cartridge has 6 blades.',
    });
    expect(conflicts.slice(1).map(({ members }) => members.map(({ kind }) => kind))).toEqual([
      ['observation', 'joint', 'rule'],
      ['observation', 'joint', 'rule'],
    ]);
  });

  it('[K1] equal in size, what shows without strip-down comes first', () => {
    const conflicts =
      explain(atlas, sheetOf([blades(8), measured('housing.bore', 41.08)]), name('service:ling-3-cartridge')).conflicts?.found ?? [];
    expect(conflicts.slice(0, 2).map(({ stage }) => stage)).toEqual(['as-received', 'housing-off']);
  });

  it('[S1] swap sets are minimal, say which parts, what they take and what the name is afterwards', () => {
    const swaps = explain(
      atlas,
      sheetOf([...wholeLing.slice(0, 2), blades(8), chose('shaft.bearing', 'journal'), marked('plate.number', '5-50')]),
      name('service:ling-3-cartridge'),
    ).swaps;
    expect(swaps).toEqual({
      complete: true,
      found: [
        {
          slots: ['wheel', 'shaft'],
          parts: [
            { slot: 'wheel', parts: ['wheel/ling'], needs: [] },
            { slot: 'shaft', parts: ['shaft/cartridge'], needs: [] },
          ],
          // Stripped (0 + 15 + 40) once, then 20 and 30 minutes of exchange.
          minutes: 105,
          work: 0,
          plates: [],
          leaves: 'stands',
        },
      ],
    });
  });
});

describe('the ticket', () => {
  it('[W1] every clause rests on something', () => {
    for (const verdict of [
      verdictOn(wholeLing),
      verdictOn([blades(7)]),
      verdictOn([blades(8)], { claimed: 'Ling 3 Cartridge' }),
      verdictOn([]),
    ]) {
      for (const clause of [...verdict.ticket.may, ...verdict.ticket.mustNot])
        expect(clause.because.length, clause.text).toBeGreaterThan(0);
    }
  });

  it('[W1] a claim that is ruled out must not be written, and the first conflict is the reason', () => {
    const { ticket } = verdictOn([blades(8)], { claimed: 'Ling 3 Cartridge' });
    expect(ticket.mustNot[0]).toMatchObject({ text: 'This unit must not be described as Quayside Ling 3 Cartridge.' });
    expect(ticket.mustNot[0]?.because).toContainEqual({ kind: 'observation', observation: blades(8).id });
  });
});
