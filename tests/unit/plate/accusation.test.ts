import { describe, expect, it } from 'vitest';
import { chose } from '../reasoner/little-atlas.ts';
import { blades, castName, housingName, number, plateSentences, ribs, serial, tradeName, verdictOn, year } from './quay-atlas.ts';

const trueCod = [
  castName('QUAYSIDE'),
  ribs(4),
  housingName('QUAYSIDE'),
  number('P 100-9/1'),
  tradeName('Quayside'),
  chose('plate.holes', 'two'),
];
const doubtful = (verdict: ReturnType<typeof verdictOn>) => verdict.slots.flatMap((slot) => (slot.doubtful ? [slot.slot as string] : []));

describe('[O5] what accuses the plate', () => {
  it('[O5] one foreign turbine wheel in a true unit says nothing against its plate', () => {
    const verdict = verdictOn([...trueCod, blades(11)]);
    expect(doubtful(verdict)).toEqual(['turbine-wheel', 'bearing-housing']);
    expect(plateSentences(verdict)).toEqual([]);
  });

  it('[O5] nor does a wheel it cannot meet over any bearing housing: which of the two is foreign nobody can tell', () => {
    const verdict = verdictOn([number('P 300-7/1'), blades(9)]);
    expect(doubtful(verdict)).toEqual(['turbine-wheel', 'bearing-housing', 'plate']);
    expect(verdict.unit.found).toHaveLength(1);
    expect(plateSentences(verdict)).toEqual([]);
  });

  it('[O5] a plate moved to another bearing housing is accused once, with what was seen of the housing that tells', () => {
    const verdict = verdictOn([castName('QUAYSIDE'), ribs(4), number('P 300-7/1'), tradeName('Quayside'), chose('plate.holes', 'four')]);
    expect(plateSentences(verdict)).toEqual([
      'The plate’s number “P 300-7/1” is of Quayside Ling 1, and this bearing housing, with 4 ribs, is none of its: the plate does not belong where it is.',
    ]);
  });

  it('[O5] without a number the atlas’s plates say it, once', () => {
    const verdict = verdictOn([castName('QUAYSIDE'), ribs(4), chose('bearing-housing.hub', 'small'), chose('plate.holes', 'four')]);
    const said = plateSentences(verdict);
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(
      /^The plate does not belong where it is: no listed bearing housing with (4 ribs|small as its hub) fits any listed nameplate with four as its holes /,
    );
  });

  it('[O5] a bearing housing that is no listed one accuses no plate', () => {
    const verdict = verdictOn([castName('HARBOUR'), ribs(4), number('P 300-7/1'), chose('plate.holes', 'four')]);
    expect(doubtful(verdict)).toEqual(['bearing-housing']);
    expect(plateSentences(verdict)).toEqual([]);
  });

  it('[O5] a plate no listed plate agrees with is accused by itself, whatever it is riveted to', () => {
    const verdict = verdictOn([castName('QUAYSIDE'), ribs(4), number('P 300-7/1'), tradeName('Quay Air')]);
    expect(doubtful(verdict)).toEqual(['plate']);
    const said = plateSentences(verdict);
    expect(said).toContain(
      'The plate does not agree with itself: no plate the atlas knows has the part number “P 300-7/1” and the trade name “Quay Air”.',
    );
  });

  it('[O5] [W1] a wrong claim is no fault of the plate: the plate may still name the unit', () => {
    const verdict = verdictOn(trueCod, { claimed: 'Ling 1' });
    expect(plateSentences(verdict)).toEqual([
      'The plate’s number “P 100-9/1” is of Quayside Cod 1, not of Quayside Ling 1, which the unit is offered as.',
    ]);
    expect(verdict.ticket.mustNot.filter(({ text }) => text.includes('confirmed'))).toEqual([]);
    const young = verdictOn([tradeName('Quayside'), year(1985)], { claimed: 'Mole 1' });
    const early = verdictOn([year(1970)], { claimed: 'Ling 1' });
    expect([young, early].map((each) => each.ticket.mustNot.filter(({ text }) => text.includes('confirmed')))).toEqual([[], []]);
    expect(plateSentences(early)).toEqual([
      'The unit is offered as Quayside Ling 1, built since 1980, and the plate’s year of make tells 1970.',
    ]);
  });

  it('[O5] [W1] a plate that argues with itself may not', () => {
    const verdict = verdictOn([tradeName('Quay Air'), serial('S 1999 123')]);
    expect(verdict.ticket.mustNot.filter(({ text }) => text.includes('confirmed'))).toHaveLength(1);
  });
});
