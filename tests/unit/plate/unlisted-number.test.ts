import { describe, expect, it } from 'vitest';
import { answer, answerInBrief, asId, compileAtlas, explain, type Maker, type Observation, type Verdict } from '../../../reasoner/index.ts';
import { chose, sheetOf } from '../reasoner/little-atlas.ts';
import {
  blades,
  castName,
  housingName,
  number,
  plateSentences,
  quay,
  quayAtlas,
  ribs,
  serial,
  statusOf,
  tradeName,
  verdictIn,
  verdictOn,
  year,
} from './quay-atlas.ts';

/** Made as Quayside makes its plate numbers, check digit and all, and of no plate the atlas lists. */
const unlisted = number('P 777-5/1');
const core = [castName('QUAYSIDE'), ribs(4), blades(9), housingName('QUAYSIDE')];
const models = ['cod-1', 'cod-2', 'ling-1', 'mole-1', 'far-1'];
const statuses = (verdict: Verdict) => models.map((model) => statusOf(verdict, model));
const open = (...observations: Observation[]) => models.filter((model) => statusOf(verdictOn(observations), model) === 'open');
const slotOf = (verdict: Verdict) => verdict.slots.find(({ slot }) => slot === asId('plate'));

describe('[O5] a well-formed number that nobody lists', () => {
  it('[O5] [N2] neither rules a model of its maker out nor lets it stand: it is open for what the atlas lacks', () => {
    const verdict = verdictOn([...core, unlisted, tradeName('Quayside')], { claimed: 'Cod 1' });
    const name = verdict.names.find((each) => each.name.id === 'service:cod-1');
    expect([name?.status, name?.unsettled, name?.lacks]).toEqual(['open', [], ['plate']]);
    expect(verdict.claim?.sentences).toEqual(['Quayside Cod 1 is open: the atlas lists no nameplate with this one’s number.']);
    expect(slotOf(verdict)).toMatchObject({ candidates: [], doubtful: false, numberNotListed: ['quayside'] });
    expect(verdict.honest).toEqual(['all-parts:cod-1']);
    expect(verdict.names.find((each) => each.name.id === 'all-parts:cod-1')?.name.text).toBe(
      'all parts of Quayside Cod 1, nameplate not confirmed',
    );
    expect(verdict.ticket.mustNot[0]?.text).toBe(
      'This unit must not be described as Quayside Cod 1 before the maker has confirmed its nameplate.',
    );
  });

  it('[O5] [N2] what is counted at once is what is listed: a name is looked for by what is left of the plates only where the plate is one of them', () => {
    for (const seen of [[...core, unlisted, tradeName('Quayside')], [unlisted], [blades(9), unlisted]]) {
      const { brief, whole } = answerInBrief(quay, sheetOf(seen));
      const verdict = whole();
      if (brief.kind === 'contradiction' || verdict.kind === 'contradiction') throw new Error('the entries do not agree');
      const of = (status: string) => verdict.names.filter((each) => each.status === status).length;
      expect(of('open')).toBeGreaterThan(0);
      expect(brief.counts).toEqual({ stands: of('stands'), open: of('open'), 'ruled out': of('ruled out') });
    }
  });

  it('[O5] it is told as news that accuses nobody', () => {
    const verdict = verdictOn([...core, unlisted, tradeName('Quayside')]);
    expect(plateSentences(verdict)).toEqual([
      'The plate’s number “P 777-5/1” is made as Quayside makes them, and the atlas lists no such number: it can be a plate of Quayside Cod 1, Quayside Cod 2 or Quayside Ling 1.',
    ]);
    expect(verdict.findings.map(({ kind }) => kind)).toEqual(['plate']);
    expect(verdict.ticket.mustNot.map(({ text }) => text).join()).not.toContain('named by its plate');
    expect(verdict.unit.found).toEqual([]);
  });

  it('[O5] [N1] a stranger’s models are ruled out by it, and the number and what they ask of the plate are the reason', () => {
    const verdict = verdictOn([unlisted]);
    expect(statuses(verdict)).toEqual(['open', 'open', 'open', 'ruled out', 'ruled out']);
    const why = explain(quay, sheetOf([unlisted]), asId('service:mole-1'));
    expect(why.conflicts?.found.map(({ members }) => members)).toEqual([
      [
        { kind: 'observation', observation: unlisted.id },
        { kind: 'rule', name: 'service:mole-1', slot: 'plate' },
      ],
    ]);
    expect(why.conflicts?.found[0]?.sentence).toContain('“P 777-5/1”');
  });

  it('[O5] [K1] of what rules out a model of its own maker the plate is no member, nor is it to be exchanged', () => {
    const why = explain(quay, sheetOf([...core, unlisted]), asId('service:cod-2'));
    expect(why.status).toBe('ruled out');
    expect(why.conflicts?.found.flatMap(({ slots }) => slots)).not.toContain('plate');
    expect(why.swaps?.found.map(({ slots }) => slots)).toEqual([['turbine-wheel', 'turbine-housing']]);
    expect(why.swaps?.found.map(({ leaves }) => leaves)).toEqual(['open']);
  });

  it('[O5] the same number in another issue is of the same models and of no others', () => {
    expect(open(number('P 100-9/2'))).toEqual(['cod-1']);
    expect(open(number('P 200-8/7'))).toEqual(['cod-2']);
    // A listed one is a listed plate as ever.
    expect(open(number('P 100-9/1'))).toEqual(['cod-1']);
  });

  it('[O5] what tells the time leaves only models that were built then', () => {
    expect(open(unlisted, year(1970))).toEqual(['cod-1', 'cod-2']);
    expect(open(unlisted, serial('S 1999 123'))).toEqual(['ling-1']);
    // Cod was built until 1985, Ling since 1980, both included.
    expect(open(unlisted, year(1980))).toEqual(['cod-1', 'cod-2', 'ling-1']);
    expect(open(unlisted, year(1985))).toEqual(['cod-1', 'cod-2', 'ling-1']);
    expect(open(unlisted, year(1986))).toEqual(['ling-1']);
    expect(open(unlisted, tradeName('Quay Air'))).toEqual(['cod-1', 'cod-2', 'ling-1']);
    expect(open(number('HB 4711'))).toEqual(['mole-1']);
    expect(open(number('HB 4711'), year(1990))).toEqual(['mole-1']);
  });

  it('[O5] everything else seen on the plate must be as its maker’s are; then no plate is a candidate, and what asks for one is ruled out', () => {
    for (const observations of [
      [number('HB 4711'), year(1991)],
      [unlisted, tradeName('Harbour')],
      [unlisted, tradeName('Nobody')],
      [unlisted, tradeName('Quay Air'), serial('S 1999 123')],
      [unlisted, serial('no such serial')],
      [unlisted, chose('plate.fixing', 'glue')],
      [number('W 777-5/1')],
    ]) {
      const verdict = verdictOn(observations);
      expect(statuses(verdict), JSON.stringify(observations)).toEqual(models.map(() => 'ruled out'));
      expect(slotOf(verdict)?.doubtful).toBe(true);
      expect(slotOf(verdict)?.numberNotListed).toBeNull();
    }
    expect(open(unlisted, chose('plate.holes', 'four'))).toEqual(['ling-1']);
  });

  it('[O5] [O7] a wrong check digit is a slip first, and rules out what asks for the plate and nothing else', () => {
    const verdict = verdictOn([...core, number('P 777-4/1')]);
    expect(statusOf(verdict, 'cod-1')).toBe('ruled out');
    expect(plateSentences(verdict)[0]).toContain('It was misread');
    expect(verdict.honest).toEqual(['all-parts:cod-1']);
  });

  it('[O5] a maker whose patterns nobody has given is held to none', () => {
    expect(open(number('ZZ 9'), tradeName('Outland'))).toEqual(['far-1']);
    expect(open(number('ZZ 9'))).toEqual(['far-1']);
    expect(open(number('ZZ 9'), tradeName('Harbour'))).toEqual([]);
    const nobody = compileAtlas({ ...quayAtlas, makers: quayAtlas.makers.map(({ numbering: _, ...maker }): Maker => maker) });
    expect(models.filter((model) => statusOf(verdictIn(nobody)([number('ZZ 9'), tradeName('Quayside')]), model) === 'open')).toEqual([
      'cod-1',
      'cod-2',
      'ling-1',
    ]);
  });

  it('[N4] of a stranger’s parts it is a plate of another', () => {
    const mole = verdictOn([castName('HARBOUR'), ribs(6), blades(12), housingName('HARBOUR'), unlisted]);
    expect(mole.names.find(({ name }) => name.id === 'all-parts:mole-1')).toMatchObject({
      status: 'stands',
      name: { text: 'all parts of Harbour Mole 1, nameplate of another' },
    });
  });

  it('[O5] [O7] a number its maker cannot have made is a slip first', () => {
    expect(plateSentences(verdictOn([number('ZZ 9'), tradeName('Harbour')]))[0]).toBe(
      'The plate bears a trade name of Harbour and the part number “ZZ 9”, and Harbour does not make its part numbers so: it was misread, or the plate is not what it says.',
    );
  });

  it('[O1] a number that is only told says nothing', () => {
    const told = { ...unlisted, sure: { kind: 'told' } as const };
    expect(statuses(verdictOn([told]))).toEqual(models.map(() => 'open'));
  });

  it('[N4] a family stands no more than its models do, and is open with them', () => {
    const verdict = verdictOn([...core, unlisted]);
    expect(verdict.names.find(({ name }) => name.id === 'family:cod')?.status).toBe('open');
    expect(verdict.names.find(({ name }) => name.id === 'family:mole')?.status).toBe('ruled out');
  });

  it('[J3] it fits any bearing housing, so that none falls out by it', () => {
    const verdict = verdictOn([unlisted, chose('bearing-housing.holes', 'three')]);
    expect(verdict.slots.find(({ slot }) => slot === asId('bearing-housing'))?.candidates).toEqual(['bearing-housing/mole']);
    expect(verdict.slots.filter(({ doubtful }) => doubtful)).toEqual([]);
    expect(answer(quay, sheetOf([unlisted, chose('bearing-housing.holes', 'three')])).kind).toBe('verdict');
  });

  it('[O5] of makers who traded under one name it can be any one’s whose numbers are made so, or are not known', () => {
    const shared = compileAtlas({
      ...quayAtlas,
      makers: quayAtlas.makers.map(
        (maker): Maker => (maker.name === 'Outland' ? { ...maker, tradeNames: [{ name: 'Quayside', from: 1900, to: null }] } : maker),
      ),
    });
    const verdict = verdictIn(shared)([unlisted, tradeName('Quayside')]);
    expect(slotOf(verdict)?.numberNotListed).toEqual(['quayside', 'outland']);
    expect(statuses(verdict)).toEqual(['open', 'open', 'open', 'ruled out', 'open']);
  });

  it('[O5] several things that tell the time leave only what they have in common', () => {
    const short = compileAtlas({
      ...quayAtlas,
      models: quayAtlas.models.map((model) => (model.id === asId('cod-1') ? { ...model, from: 1960, to: 1979 } : model)),
    });
    const span = { ...year(1970), value: { kind: 'count', from: 1970, to: 1990 } as const };
    const left = (...observations: Observation[]) =>
      models.filter((model) => statusOf(verdictIn(short)([unlisted, ...observations]), model) === 'open');
    expect(left(span)).toEqual(['cod-1', 'cod-2', 'ling-1']);
    // Quayside since 1980, Quay Air until then.
    expect(left(span, tradeName('Quayside'))).toEqual(['cod-2', 'ling-1']);
    expect(left(span, tradeName('Quay Air'))).toEqual(['cod-1', 'cod-2', 'ling-1']);
    expect(left({ ...span, value: { kind: 'count', from: 1970, to: 1979 } }, tradeName('Quay Air'))).toEqual(['cod-1', 'cod-2']);
  });

  it('[O5] [N2] beside a listed plate of unknown number both remain, and looking can settle it', () => {
    const silent = compileAtlas({
      ...quayAtlas,
      parts: quayAtlas.parts.map((part) => (part.id === asId('plate/mole') ? { ...part, facts: {} } : part)),
    });
    const verdict = verdictIn(silent)([castName('HARBOUR'), ribs(6), blades(12), housingName('HARBOUR'), unlisted]);
    const name = verdict.names.find((each) => each.name.id === 'service:mole-1');
    expect(slotOf(verdict)?.candidates).toEqual(['plate/mole']);
    expect([name?.status, name?.unsettled, name?.lacks]).toEqual(['open', ['plate'], []]);
  });

  it('[O5] [S1] with the plate its maker’s the name stands, and the candidate is gone', () => {
    const why = explain(
      quay,
      sheetOf([castName('HARBOUR'), ribs(6), blades(12), housingName('HARBOUR'), unlisted]),
      asId('service:mole-1'),
    );
    expect(why.swaps?.found.map(({ slots, plates, leaves }) => [slots, plates, leaves])).toEqual([[['plate'], ['plate'], 'stands']]);
  });

  it('[O5] [J1] what falls out and what disagrees does so without the plate', () => {
    const reversed = compileAtlas({ ...quayAtlas, joints: [...quayAtlas.joints].reverse() });
    const fallen = verdictIn(reversed)([unlisted, blades(11)]).slots.find(({ slot }) => slot === asId('bearing-housing'))?.removedByJoints;
    expect(fallen?.map(({ part, because }) => [part, because.kind === 'joint' && because.other])).toEqual([
      ['bearing-housing/cod', 'turbine-wheel'],
      ['bearing-housing/far', 'turbine-wheel'],
    ]);
    const foreign = verdictOn([unlisted, ribs(4), castName('QUAYSIDE'), blades(11)]);
    expect(foreign.unit.found.map(({ slots }) => slots)).toEqual([['turbine-wheel', 'bearing-housing']]);
  });
});
