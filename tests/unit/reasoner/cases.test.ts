import { describe, expect, it } from 'vitest';
import {
  type Atlas,
  appliedChanges,
  asId,
  caseChanges,
  compileAtlas,
  judgeCase,
  type NameId,
  type Observation,
  type Sheet,
} from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from './little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const whole = [
  marked('housing.cast-name', 'QUAYSIDE'),
  measured('housing.bore', 50.6),
  blades(6),
  chose('shaft.weld', 'beam'),
  marked('plate.number', '5-50'),
];
const offered = (observations: readonly Observation[], rest: Partial<Sheet> = {}): Sheet =>
  sheetOf(observations, { claimed: 'Ling 3 Cartridge', claimedMaker: asId('quayside'), ...rest });
const kept = (sheet: Sheet, of = atlas) => ({ sheet, verdict: judgeCase(of, sheet) });
const ling = (changes: ReturnType<typeof caseChanges>) => changes.names.find(({ claimed }) => claimed);

/** Today's atlas: another edition, changed by hand. */
const editionWith = (change: (plain: Atlas) => Atlas) => compileAtlas({ ...change(littleAtlas), edition: 'little, second edition' });
/** The wheel of the claimed model turns out to have seven blades. */
const corrected = editionWith((plain) => ({
  ...plain,
  parts: plain.parts.map((part) =>
    part.id === 'wheel/ling' ? { ...part, facts: { ...part.facts, 'wheel.blades': { kind: 'count', from: 5, to: 5 } } } : part,
  ),
}));

describe('what a case keeps of a verdict', () => {
  it('[P1] honest names stand, open ones are open, the claim has its status, and no ruled-out name is kept', () => {
    const verdict = judgeCase(atlas, offered(whole));
    if (verdict.kind !== 'verdict') throw new Error('contradicted');
    expect(verdict.honest.map(({ status }) => status)).toEqual(verdict.honest.map(() => 'stands'));
    expect(verdict.claim?.status).toBe('stands');
    expect(verdict.names.some(({ status }) => status === 'ruled out')).toBe(false);
    expect(verdict.names.map(({ id }) => id)).toEqual(expect.arrayContaining(verdict.honest.map(({ id }) => id)));
    expect(verdict.sentences[0]).toContain('stands');
    expect(verdict.edition).toBe('little');
  });

  it('[K2] the sentences of a claim that falls are its conflicts, as they were said', () => {
    const verdict = judgeCase(atlas, offered([blades(8)]));
    if (verdict.kind !== 'verdict') throw new Error('contradicted');
    expect(verdict.claim?.status).toBe('ruled out');
    expect(verdict.sentences.some((sentence) => sentence.includes('8 blades'))).toBe(true);
  });

  it('[O6] entries that contradict each other are kept with what contradicts what and what each would mean, and no name', () => {
    expect(judgeCase(atlas, sheetOf([blades(6), blades(7)]))).toMatchObject({
      kind: 'contradiction',
      sentences: [
        expect.stringContaining('cannot have both'),
        expect.stringMatching(/^With 6 blades: /),
        expect.stringMatching(/^With 7 blades: /),
      ],
    });
  });

  it('[F4] a planned build is kept with whether it goes together and what is chosen', () => {
    const sheet = sheetOf([], { kind: 'planned', chosen: { [asId<never>('wheel')]: asId<never>('wheel/ling') } });
    const verdict = judgeCase(atlas, sheet);
    if (verdict.kind !== 'verdict') throw new Error('contradicted');
    expect(verdict.fit).not.toBeNull();
    expect(verdict.slots.find(({ slot }) => slot === 'wheel')?.parts).toEqual([{ id: 'wheel/ling', name: 'ling' }]);
  });
});

describe('what changed since, and why', () => {
  it('[T1] the same sheet under the same atlas: nothing changed, and that is said', () => {
    const changes = caseChanges(atlas, kept(offered(whole)), offered(whole));
    expect(changes).toMatchObject({ entries: [], names: [], slots: [] });
    expect(changes.sentence).toContain('still');
  });

  it('[P1] the same entries under an atlas that knows better: the atlas did it, and the parts behind it are named', () => {
    const changes = caseChanges(corrected, kept(offered(whole)), offered(whole));
    expect(changes.editions).toEqual({ was: 'little', is: 'little, second edition' });
    expect(changes.entries).toEqual([]);
    expect(ling(changes)).toMatchObject({ was: 'stands', is: 'ruled out', because: 'atlas', byItself: [] });
    expect(changes.slots.find(({ slot }) => slot === 'wheel')).toMatchObject({ gone: ['ling'], come: [] });
  });

  it('[O2] other entries under the same atlas: the entries did it, and the one that suffices is pointed at', () => {
    const [name, bore, , weld, plate] = whole as [Observation, Observation, Observation, Observation, Observation];
    const now = offered([name, bore, { ...blades(7), id: blades(6).id }, weld, { ...plate, note: 'hard to read' }], {
      title: 'Looked at again',
    });
    const changes = caseChanges(atlas, kept(offered(whole)), now);
    const claim = ling(changes);
    expect(claim).toMatchObject({ was: 'stands', is: 'ruled out', because: 'entries' });
    expect(claim?.byItself.map((index) => changes.entries[index]?.sentence)).toEqual([
      'Corrected: compressor wheel, 7 blades (seen); before, compressor wheel, 6 blades (seen).',
    ]);
    expect(changes.slots, 'the atlas changed nothing').toEqual([]);
  });

  it('[P1] what the atlas took, an entry can give back: such a name has not changed', () => {
    const changes = caseChanges(corrected, kept(offered(whole)), offered(whole.filter(({ feature }) => feature !== 'wheel.blades')));
    expect(changes.names.every(({ was, is }) => was !== is)).toBe(true);
    expect(changes.entries.map(({ sentence }) => sentence)).toEqual(['Taken back: compressor wheel, 6 blades (seen).']);
  });

  it('[N6] a claim that is no model of the atlas is followed by what it says', () => {
    const named = (claimed: string | null) => sheetOf(whole, { claimed, claimedMaker: claimed === null ? null : asId('quayside') });
    expect(caseChanges(atlas, kept(named('Ling 4 Cartridge')), named('Ling 3 Cartridge')).claim).toMatchObject({
      was: { text: 'Ling 4 Cartridge' },
      is: { text: 'Ling 3 Cartridge', status: 'stands' },
      because: 'entries',
    });
    expect(caseChanges(atlas, kept(named('Ling 3 Cartridge')), named(null)).claim).toMatchObject({ is: null });
    expect(caseChanges(atlas, kept(named(null)), named(null)).claim).toBeNull();
  });

  it('[O6] entries that contradict each other now are told from a verdict that stood', () => {
    const changes = caseChanges(atlas, kept(offered(whole)), offered([...whole, blades(7)]));
    expect(changes.today.kind).toBe('contradiction');
    expect(changes.sentence).toContain('contradict each other now');
  });

  it('[T1] the cause is exact: atlas alone where re-answering the kept entries gives today’s status, entries alone where it gives the kept one', () => {
    const sheets = [offered(whole), offered(whole.slice(0, 2)), offered([]), offered([blades(7)]), offered([blades(6)])];
    for (const then of sheets)
      for (const now of sheets)
        for (const today of [atlas, corrected]) {
          const changes = caseChanges(today, kept(then), now);
          for (const { was, rejudged, is, because } of changes.names)
            expect(because).toBe(rejudged === is ? 'atlas' : rejudged === was ? 'entries' : 'both');
          const status = (verdict: typeof changes.today, id: NameId) =>
            verdict.kind === 'verdict' ? verdict.names.find((name) => name.id === id)?.status : undefined;
          if (changes.then.kind === 'verdict' && changes.today.kind === 'verdict')
            for (const { id } of [...changes.then.names, ...changes.today.names])
              if (status(changes.then, id) !== status(changes.today, id)) expect(changes.names.map((name) => name.id)).toContain(id);
        }
  });

  it('[T1] every difference of two sheets is said once, and applying them all leads from the one to the other', () => {
    const was = offered(whole, { absent: [asId('plate')] });
    const is = sheetOf([...whole.slice(1), blades(7)], { title: 'other', story: 'told', absent: [asId('shaft')] });
    expect(appliedChanges(atlas, was, is).map(({ change }) => change.kind)).toEqual([
      'claim',
      'observation',
      'observation',
      'absent',
      'absent',
      'told about it',
      'told about it',
    ]);
    expect(appliedChanges(atlas, was, was)).toEqual([]);
  });
});
