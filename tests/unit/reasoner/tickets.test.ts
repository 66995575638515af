import { describe, expect, it } from 'vitest';
import { answer, asId, type Clause, type CompiledAtlas, planBuild, type Sheet, type Verdict } from '../../../reasoner/index.ts';
import { blades, castName, housingName, number, quay, ribs, tradeName, verdictOn } from '../plate/quay-atlas.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';
import { marked, sheetOf } from './little-atlas.ts';

const texts = (clauses: readonly Pick<Clause, 'text'>[]) => clauses.map(({ text }) => text);
const may = (verdict: Verdict) => texts(verdict.ticket.may);
const mustNot = (verdict: Verdict) => texts(verdict.ticket.mustNot);

const trueCod = [castName('QUAYSIDE'), ribs(4), blades(9), housingName('QUAYSIDE'), number('P 100-9/1'), tradeName('Quayside')];
const lane = [castName(null), ribs(5), blades(14)];

const planned = (atlas: CompiledAtlas, sheet: Sheet) => {
  const plan = planBuild(atlas, sheet);
  if (plan.kind !== 'plan') throw new Error(`${sheet.id} is contradictory`);
  return plan;
};

/** Copied alone it says of the unit, and of nothing left behind, what it may or must not be called. */
const wholeSentence = /^(By what was seen,|This unit|Once it is built|Whether this unit|The [a-z -]+ of this unit) .*\.$/;

describe('[W1] every clause of a ticket is a whole sentence that keeps its meaning when copied alone', () => {
  it('[W1] of every found unit of the demo pack; none that must not be said lets go of its “not”', () => {
    let asked = 0;
    for (const sheet of demoPack.sheets) {
      const verdict = sheet.kind === 'found' ? answer(demo, sheet) : null;
      if (verdict?.kind !== 'verdict') continue;
      asked += 1;
      for (const clause of [...verdict.ticket.may, ...verdict.ticket.mustNot]) {
        expect(clause.text, sheet.id).toMatch(wholeSentence);
        expect(clause.because.length, `${sheet.id}: ${clause.text}`).toBeGreaterThan(0);
      }
      for (const text of mustNot(verdict)) expect(text, sheet.id).toMatch(/^This unit must not be /);
      for (const text of may(verdict)) expect(text, sheet.id).not.toContain('must not');
    }
    expect(asked).toBeGreaterThan(15);
  });

  it('[W1] [F4] and of every build', () => {
    const builds = demoPack.sheets.filter(({ kind }) => kind === 'planned');
    expect(builds.length).toBeGreaterThan(3);
    for (const sheet of builds) {
      const { ticket } = planned(demo, sheet);
      for (const clause of [...ticket.may, ...ticket.mustNot]) {
        expect(clause.text, sheet.id).toMatch(wholeSentence);
        expect(clause.because.length, `${sheet.id}: ${clause.text}`).toBeGreaterThan(0);
      }
      expect(ticket.may[0]?.text, sheet.id).toMatch(/^Once it is built of the parts listed, /);
      for (const { text } of ticket.mustNot) expect(text, sheet.id).toMatch(/^This unit must not be /);
    }
  });

  it('[W1] [N3] a name that stands and its caution are one sentence', () => {
    const verdict = verdictOn([...trueCod, marked('heat-shield.mark', 'QUAYSIDE')]);
    expect(may(verdict)).toEqual([
      'By what was seen, this unit may be described as Quayside Cod 1; the maker’s confirmation of the plate is the last word.',
    ]);
    expect(verdict.ticket.may[0]?.because).toEqual([
      { kind: 'name', name: 'model:cod-1' },
      { kind: 'caution', index: 0 },
    ]);
    expect(mustNot(verdict)).toEqual(['This unit must not be described as genuine on looks alone.']);
  });

  it('[W1] what is open is said as a question, and a claim with the slots that keep it open', () => {
    const verdict = verdictOn([blades(9), castName('QUAYSIDE'), ribs(4), housingName('QUAYSIDE')], { claimed: 'Cod 1' });
    expect(may(verdict).at(-1)).toBe('Whether this unit may be described as Quayside Cod 1 is not yet settled.');
    expect(mustNot(verdict)[0]).toBe('This unit must not be described as Quayside Cod 1 before its nameplate is settled.');
  });

  it('[W1] [N6] a name nobody gives is forbidden in whole sentences, and rests on the reading of the claim', () => {
    const verdict = verdictOn(trueCod, { claimed: 'Wren 9', claimedMaker: asId('quayside') });
    expect(verdict.ticket.mustNot[0]).toEqual({
      text: 'This unit must not be described as “Wren 9”. “Wren 9” is no name of Quayside.',
      because: [{ kind: 'claim' }],
    });
  });

  it('[W1] [N5] letters on one part reach no further than that part, and makers take their article', () => {
    const verdict = verdictOn([housingName('OUTLAND')], { absent: [asId('plate')] });
    expect(mustNot(verdict)).toContain(
      'This unit must not be described as an Outland unit: the name is on the turbine housing and says nothing of the rest.',
    );
    expect(may(verdict)).toContain('By what was seen, its turbine housing (outland turbine housing) is an Outland part.');
  });
});

describe('[W1] parts that are nobody’s', () => {
  it('[W1] [N4] where a model stands with its service parts aside, its own name is left open with them included', () => {
    const rebuilt = demoPack.sheets.find(({ id }) => id.startsWith('s13-')) as Sheet;
    const verdict = answer(demo, rebuilt) as Verdict;
    expect(may(verdict).at(-1)).toBe(
      'Whether this unit may be described as Merrowby Tern 7 with its service parts included is not yet settled.',
    );
  });

  it('[W1] a part without a maker’s name in a rebuilt unit is on its ticket', () => {
    const verdict = verdictOn([...trueCod, marked('heat-shield.mark', null)]);
    expect(verdict.honest).toEqual(['model:cod-1']);
    expect(may(verdict)).toContain('This unit holds a heat shield made without a maker’s name.');
    expect(verdict.ticket.may.find(({ text }) => text.startsWith('This unit holds'))?.because).toEqual([
      { kind: 'observation', observation: marked('heat-shield.mark', null).id },
    ]);
  });

  it('[W1] [N5] and so is another maker’s', () => {
    const verdict = verdictOn([...trueCod, marked('heat-shield.mark', 'Harbour')]);
    expect(verdict.honest).toEqual(['service:cod-1']);
    expect(may(verdict)).toContain('This unit holds a heat shield made by Harbour.');
    expect(mustNot(verdict)).toContain(
      'This unit must not be described as a Harbour unit: the name is on the heat shield and says nothing of the rest.',
    );
  });

  it('[W1] the maker’s own is not told, nor a part of which nothing was seen', () => {
    expect(may(verdictOn([...trueCod, marked('heat-shield.mark', 'Quayside')]))).toHaveLength(1);
    expect(may(verdictOn(trueCod)).join('\n')).not.toContain('holds');
  });

  it('[W1] [O4] an unmarked copy is told apart from a counterfeit in whole sentences', () => {
    const verdict = verdictOn(lane, { absent: [asId('plate')] });
    expect(verdict.honest).toEqual(['pattern:lane-1']);
    expect(may(verdict)[0]).toBe(
      'By what was seen, this unit may be described as a pattern part core (pattern of Quayside Ling 1, no maker’s name); a pattern part the atlas does not know cannot be excluded by eye.',
    );
    expect(mustNot(verdict)).toContain(
      'This unit must not be described as counterfeit: its bearing housing bears no maker’s name, and a copy that bears none is called non-genuine.',
    );
  });
});

describe('[O4] a maker’s plate on a nameless bearing housing', () => {
  const riveted = verdictOn([...lane, tradeName('Quayside')]);

  it('[O4] is a finding of its own, with what it rests on', () => {
    expect(riveted.findings).toEqual([
      {
        kind: 'mark',
        observation: tradeName('Quayside').id,
        slot: 'bearing-housing',
        wouldBe: ['bearing-housing/lane'],
        reading: 'maker’s plate on a pattern part',
        sentence:
          'A plate of Quayside is fixed to a bearing housing that bears no maker’s name. It may have been moved there and is no proof.',
      },
    ]);
  });

  it('[O4] [N4] the name says so wherever it is said', () => {
    const name = riveted.names.find((each) => each.name.id === riveted.honest[0])?.name;
    expect(name?.text).toBe(
      'pattern part core (pattern of Quayside Ling 1, no maker’s name), bearing a plate of Quayside that is no proof',
    );
    expect(may(riveted)).toContain(
      'By what was seen, its turbine wheel and bearing housing are pattern parts, made without a maker’s name; the plate of Quayside on its bearing housing is no proof.',
    );
  });

  it('[O4] [W1] it may be called neither an unmarked copy nor genuine', () => {
    expect(mustNot(riveted)).toContain(
      'This unit must not be described as a Quayside unit, an unmarked copy or genuine: its bearing housing bears no maker’s name, and the plate of Quayside on it is no proof.',
    );
    expect([...may(riveted), ...mustNot(riveted)].join('\n')).not.toMatch(/counterfeit|non-genuine/);
  });

  it('[O4] its number says whose it is as well as its trade name', () => {
    const numbered = verdictOn([...lane, number('P 300-7/1')]);
    expect(numbered.findings.map((finding) => finding.kind === 'mark' && finding.reading)).toContain('maker’s plate on a pattern part');
  });

  it('[O4] nothing of it is said of a maker’s own bearing housing, of one not settled, or without a plate', () => {
    for (const observations of [[castName('QUAYSIDE'), ribs(5), tradeName('Quayside')], [ribs(5), tradeName('Quayside')], lane]) {
      const verdict = verdictOn(observations);
      expect(verdict.findings.filter(({ kind }) => kind === 'mark')).toEqual([]);
      expect([...may(verdict), ...mustNot(verdict)].join('\n')).not.toMatch(/no proof|unmarked copy/);
    }
  });

  it('[O4] [F4] nor may a build be called so', () => {
    const chosen = { 'bearing-housing': 'bearing-housing/lane', 'turbine-wheel': 'turbine-wheel/lane', plate: 'plate/ling' };
    const { ticket } = planned(quay, sheetOf([], { kind: 'planned', chosen: chosen as never }));
    expect(texts(ticket.may)[0]).toContain('bearing a plate of Quayside that is no proof');
    expect(texts(ticket.mustNot)).toContain(
      'This unit must not be described as a Quayside unit, an unmarked copy or genuine: its bearing housing bears no maker’s name, and the plate of Quayside on it is no proof.',
    );
    for (const { text, because } of ticket.mustNot) expect(because.length, text).toBeGreaterThan(0);
  });
});

describe('[O1] what was told', () => {
  const told = (observation: ReturnType<typeof blades>) => ({
    ...observation,
    id: asId<typeof observation.id>(`told ${observation.id}`),
    sure: { kind: 'told' } as const,
  });

  it('[O1] everything told of which nothing is known is one finding', () => {
    const verdict = verdictOn([told(blades(9)), told(ribs(4)), told(castName('QUAYSIDE'))]);
    expect(verdict.findings).toEqual([
      {
        kind: 'not confirmed',
        observations: [told(blades(9)), told(ribs(4)), told(castName('QUAYSIDE'))].map(({ id }) => id),
        sentence:
          'Nothing seen so far confirms or denies what was told: that the turbine wheel has 9 blades; that the bearing housing has 4 ribs and the cast name “QUAYSIDE”.',
      },
    ]);
  });

  it('[O1] what was seen takes an entry out of it', () => {
    const verdict = verdictOn([blades(9), told(blades(10)), told(ribs(4))]);
    expect(verdict.findings.map((finding) => [finding.kind, finding.sentence])).toEqual([
      ['told claim', 'Told that the turbine wheel has 10 blades: what was seen says otherwise.'],
      ['not confirmed', 'Nothing seen so far confirms or denies what was told: that the bearing housing has 4 ribs.'],
    ]);
  });
});

describe('[N5] [W1] parts known to be one maker’s', () => {
  const parts = [castName('QUAYSIDE'), ribs(4), blades(9), housingName('QUAYSIDE')];

  it('[N5] without its plate a unit of all its parts may not bear the maker’s name, and nothing is said of a rest that is known', () => {
    const verdict = verdictOn(parts, { absent: [asId('plate')] });
    expect(verdict.honest).toEqual(['all-parts:cod-1']);
    expect(may(verdict)).toEqual([
      'By what was seen, this unit may be described as having all parts of Quayside Cod 1, nameplate missing; a pattern part the atlas does not know cannot be excluded by eye, and there is no plate for the maker to confirm.',
    ]);
    expect(mustNot(verdict)).toEqual([
      'This unit must not be described as a Quayside unit: its parts are Quayside’s, and no plate confirms the whole.',
      'This unit must not be described as genuine on looks alone.',
    ]);
  });

  it('[N5] a part of another maker’s among them keeps its own clause', () => {
    const verdict = verdictOn([...parts, marked('heat-shield.mark', 'HARBOUR')], { absent: [asId('plate')] });
    expect(may(verdict)).toContain('This unit holds a heat shield made by Harbour.');
    expect(mustNot(verdict)).toContain(
      'This unit must not be described as a Harbour unit: the name is on the heat shield and says nothing of the rest.',
    );
  });

  it('[N4] [N5] nor may parts of a family that are of no one model, which are told beside it', () => {
    const verdict = verdictOn([castName('QUAYSIDE'), ribs(4), blades(10), housingName('QUAYSIDE'), marked('heat-shield.mark', 'QUAYSIDE')]);
    expect(verdict.honest).toEqual(['family-parts:cod']);
    expect(may(verdict)).toEqual([
      'By what was seen, this unit may be described as made up of parts of the Quayside Cod family, of no one model; a pattern part the atlas does not know cannot be excluded by eye.',
      'By what was seen, its turbine wheel (cod-2 turbine wheel), heat shield (quayside heat shield), bearing housing (cod bearing housing) and turbine housing (quayside turbine housing) are Quayside parts.',
    ]);
    expect(mustNot(verdict)).toEqual([
      'This unit must not be described as a Quayside unit: its parts are Quayside’s, and of no one model.',
      'This unit must not be described as genuine on looks alone.',
    ]);
  });
});
