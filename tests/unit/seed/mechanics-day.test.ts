import { describe, expect, test } from 'vitest';
import { asTold } from './day/as-told.ts';
import { asReceived, foundUnit } from './day/found-unit.ts';

/*
 * A day at Saltmarsh Rotor & Fuel: units as they come over the counter, and the sentences the program says of them. The sentences are held whole, because they
 * are what a customer takes home: read them aloud before a changed one is kept. The trade facts are common practice, no source; the units are the demo world's own.
 */
describe('a mechanic’s day', () => {
  // A Tern 7 with sixty thousand miles of harbour road in it: both wheels have lost some of their edge, no more than wear takes.
  test('[O2] a worn wheel is still the wheel it was', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'tern-7',
        seen: { 'compressor-wheel-exducer': [48.66, 0.025], 'turbine-wheel-inducer': [46.6, 0.025], 'nameplate-year': 1983 },
        claimed: ['merrowby', 'Tern 7'],
      }),
    );
    expect([claim, honest]).toEqual(['stands', ['Merrowby Tern 7']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Tern 7 stands: in every slot that makes the name, only parts listed for it agree with what was seen.
      may be described as:
        By what was seen, this unit may be described as Merrowby Tern 7; the maker’s confirmation of the plate is the last word.
      must not be described as:
        This unit must not be described as genuine on looks alone."
    `);
  });

  // Jory counts nine blades on a turbine wheel that has ten. Nothing else on the unit says anything but Petrel 11.
  test('[O7] blades miscounted by one: look again before anything else', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        seen: { 'turbine-wheel-blades': 9 },
        claimed: ['merrowby', 'Petrel 11 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Everything against Merrowby Petrel 11 Cartridge rests on this reading: the turbine wheel has 9 blades. Look again.
        Merrowby Petrel 11 Cartridge is ruled out, for one reason.
      because:
        The turbine wheel has 9 blades; every turbine wheel listed for Merrowby Petrel 11 Cartridge has 10 blades.
        No listed turbine wheel with 9 blades fits any shaft listed for Merrowby Petrel 11 Cartridge (turbine wheel welded to shaft).
      whatever it is called:
        The turbine wheel has an inducer diameter of 52.4 mm (±0.05) and 9 blades; no listed turbine wheel is like that.
        The turbine wheel has the cast mark “Pe middle” and 9 blades; no listed turbine wheel is like that.
      to be said beside it:
        No turbine wheel in the atlas has everything that was seen on this one (60 are listed): it is a part the atlas does not list, or an entry is wrong.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing (Petrel 11 compressor housing), compressor wheel, backplate (Merrowby backplate, cartridge core, middle), bearing housing (Merrowby cartridge bearing housing, issue a), bearing set (Merrowby ball-bearing cartridge, issue a), shaft (Merrowby cartridge shaft), heat shield (Merrowby heat shield, cartridge core), turbine housing and nameplate (nameplate Petrel 11 Cartridge, Merrowby Rotating Machines) are Merrowby parts.
      must not be described as:
        This unit must not be described as Merrowby Petrel 11 Cartridge.
        This unit must not be described as a Merrowby unit: the name is on every part, and no name stands for the whole.
        This unit must not be described as any maker’s unit."
    `);
  });

  // A Gannet 16 with a wheel somebody milled: eleven full blades, no splitters, no mark. All else is as it left the works.
  test('[C1] a wheel nobody lists', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'gannet-16',
        seen: {
          'compressor-wheel-full-blades': 11,
          'compressor-wheel-splitter-blades': 0,
          'compressor-wheel-look': 'milled',
          'compressor-wheel-mark': null,
        },
        claimed: ['merrowby', 'Gannet 16'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Gannet 16 is ruled out, for four independent reasons.
      because:
        The compressor wheel has 11 full blades; every compressor wheel listed for Merrowby Gannet 16 has 6 full blades.
        The compressor wheel has a milled look with cutter paths; every compressor wheel listed for Merrowby Gannet 16 has a cast look with parting lines at the hub or a dull, cast and shot-peened look.
      whatever it is called:
        The compressor wheel has 11 full blades and a milled look with cutter paths; no listed compressor wheel is like that.
        The compressor wheel has no splitter blades and a milled look with cutter paths; no listed compressor wheel is like that.
      to be said beside it:
        No compressor wheel in the atlas has everything that was seen on this one (113 are listed): it is a part the atlas does not list, or an entry is wrong.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing (Gannet 16 compressor housing), backplate (Merrowby backplate, journal core, large), bearing housing (Merrowby journal bearing housing), bearing set (Merrowby journal set, issue a), shaft (Merrowby journal shaft), turbine wheel (Gannet large turbine wheel), heat shield (Merrowby heat shield, journal core), turbine housing (Gannet large turbine housing, A/R 13) and nameplate (nameplate Gannet 16, Lisle-Merrowby) are Merrowby parts.
      must not be described as:
        This unit must not be described as Merrowby Gannet 16.
        This unit must not be described as a Merrowby unit: the name is on 9 of its 10 parts and says nothing of the rest.
        This unit must not be described as any maker’s unit."
    `);
  });

  // A Petrel 11 that wears the plate of a Petrel 13 on new rivets. Both plates fit the same holes.
  test('[O5] the plate of a dearer one, riveted on again', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        swapped: { nameplate: 'merrowby-petrel-13-cartridge-nameplate-merrowby-rotating-machines' },
        seen: { 'nameplate-fixing': 'replaced-rivets' },
        claimed: ['merrowby', 'Petrel 13 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['all parts of Merrowby Petrel 11 Cartridge, nameplate of another']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Petrel 13 Cartridge is ruled out, for four independent reasons.
      because:
        The compressor housing has the cast size mark “woad”; every compressor housing listed for Merrowby Petrel 13 Cartridge has the cast size mark “mauve”.
        The compressor wheel has an exducer diameter of 54 mm (±0.05); every compressor wheel listed for Merrowby Petrel 13 Cartridge has an exducer diameter of 57.15 to 57.25 mm.
      whatever it is called:
        The nameplate has replaced rivets; no listed nameplate is like that.
      to be said beside it:
        No plate the atlas knows has replaced rivets: it has been taken off or altered since its maker fixed it, it is a plate the atlas does not list, or the entry is wrong.
      may be described as:
        By what was seen, this unit may be described as having all parts of Merrowby Petrel 11 Cartridge, nameplate of another; the maker’s confirmation of the plate is the last word.
      must not be described as:
        This unit must not be described as Merrowby Petrel 13 Cartridge.
        This unit must not be described as a Merrowby unit: its parts are Merrowby’s, and no plate confirms the whole.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // The plate is a journal Gannet’s, and the bearing housing under it has water ports and the marks of a cartridge core.
  test('[O5] a plate moved to another bearing housing', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        swapped: { nameplate: 'merrowby-gannet-12-nameplate-merrowby-rotating-machines' },
        claimed: ['merrowby', 'Gannet 12'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "still open:
        all parts of Merrowby Petrel 11 Cartridge, nameplate of another
      the claim:
        Merrowby Gannet 12 is ruled out, for 20 independent reasons.
      because:
        The bearing housing has the casting mark “HULL 6 water a”; every bearing housing listed for Merrowby Gannet 12 has the casting mark “HULL 5 oil”.
        The bearing housing has ribs joined by a ring; every bearing housing listed for Merrowby Gannet 12 has straight ribs.
      whatever it is called:
        No listed bearing housing with the casting mark “HULL 6 water a” fits any listed nameplate with the part number “FLAG 66116/2” (nameplate on bearing housing).
        No listed bearing housing with ribs joined by a ring fits any listed nameplate with the part number “FLAG 66116/2” (nameplate on bearing housing).
      to be said beside it:
        The plate’s number “FLAG 66116/2” is of Merrowby Gannet 12, and this bearing housing, with the casting mark “HULL 6 water a”, water ports and ribs joined by a ring, is none of its: the plate does not belong where it is.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing (Petrel 11 compressor housing), compressor wheel, backplate (Merrowby backplate, cartridge core, middle), bearing set (Merrowby ball-bearing cartridge, issue a), shaft (Merrowby cartridge shaft), turbine wheel (Petrel middle turbine wheel), heat shield (Merrowby heat shield, cartridge core) and turbine housing (Petrel middle turbine housing, A/R 12) are Merrowby parts.
        Whether this unit may be described as having all parts of Merrowby Petrel 11 Cartridge, nameplate of another is not yet settled.
      must not be described as:
        This unit must not be described as Merrowby Gannet 12.
        This unit must not be named by its plate before the maker has confirmed it: the plate does not agree with the bearing housing.
        This unit must not be described as a Merrowby unit: the name is on every part, and no name stands for the whole.
        This unit must not be described as any maker’s unit."
    `);
  });

  // The pilot boat’s Petrel 11, whose plate fell into the harbour years ago. The two rivet holes are there.
  test('[N4] a true unit without its plate', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        seen: { 'bearing-housing-plate-holes': 2 },
        absent: ['nameplate'],
        claimed: ['merrowby', 'Petrel 11 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['all parts of Merrowby Petrel 11 Cartridge, nameplate missing']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Petrel 11 Cartridge is ruled out, for one reason.
      because:
        There is no nameplate with the unit, and Merrowby Petrel 11 Cartridge has one.
      may be described as:
        By what was seen, this unit may be described as having all parts of Merrowby Petrel 11 Cartridge, nameplate missing; a pattern part the atlas does not know cannot be excluded by eye, and there is no plate for the maker to confirm.
      must not be described as:
        This unit must not be described as Merrowby Petrel 11 Cartridge.
        This unit must not be described as a Merrowby unit: its parts are Merrowby’s, and no plate confirms the whole.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // A Northquay copy through and through, with a true Merrowby plate on its bearing housing.
  test('[O4] a maker’s plate on a nameless bearing housing', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'northquay-13',
        swapped: { nameplate: 'merrowby-petrel-13-cartridge-nameplate-merrowby-rotating-machines' },
        claimed: ['merrowby', 'Petrel 13 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual([
      'ruled out',
      ['pattern part core (pattern of Merrowby Petrel 13 Cartridge, no maker’s name), bearing a plate of Merrowby that is no proof'],
    ]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Petrel 13 Cartridge is ruled out, for 20 independent reasons.
      because:
        The bearing housing has no casting mark; every bearing housing listed for Merrowby Petrel 13 Cartridge has the casting mark “HULL 6 water a”, “HULL 6 water b” or “HULL 6 water c”.
        The bearing housing has no cast name; every bearing housing listed for Merrowby Petrel 13 Cartridge has the cast name “Merrowby Rotating Machines” or “Merrowby”.
      to be said beside it:
        The plate’s number “FLAG 76736/1” is of Merrowby Petrel 13 Cartridge, and this bearing housing, with no cast name, no casting mark and no water ports, is none of its: the plate does not belong where it is.
        A plate of Merrowby is fixed to a bearing housing that bears no maker’s name. It may have been moved there and is no proof.
      may be described as:
        By what was seen, this unit may be described as a pattern part core (pattern of Merrowby Petrel 13 Cartridge, no maker’s name), bearing a plate of Merrowby that is no proof; a pattern part the atlas does not know cannot be excluded by eye.
        By what was seen, its compressor housing, compressor wheel, bearing housing, bearing set, shaft, turbine wheel, heat shield and turbine housing are pattern parts, made without a maker’s name; the plate of Merrowby on its bearing housing is no proof.
        By what was seen, its nameplate (nameplate Petrel 13 Cartridge, Merrowby Rotating Machines) is a Merrowby part.
      must not be described as:
        This unit must not be described as Merrowby Petrel 13 Cartridge.
        This unit must not be named by its plate before the maker has confirmed it: the plate does not agree with the bearing housing.
        This unit must not be described as a Merrowby unit, an unmarked copy or genuine: its bearing housing bears no maker’s name, and the plate of Merrowby on it is no proof.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // A Petrel 11 in every part. The number on its plate is made as Merrowby makes them, and no list has it.
  test('[O5] a plate with a number nobody lists', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        seen: { 'nameplate-number': 'FLAG 50147/1' },
        claimed: ['merrowby', 'Petrel 11 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['open', ['all parts of Merrowby Petrel 11 Cartridge, nameplate not confirmed']]);
    expect(says).toMatchInlineSnapshot(`
      "still open:
        Merrowby Petrel 11 Cartridge
      the claim:
        Merrowby Petrel 11 Cartridge is open: the atlas lists no nameplate with this one’s number.
      to be said beside it:
        The plate’s number “FLAG 50147/1” is made as Merrowby makes them, and the atlas lists no such number: which model’s plate it is nobody can tell by it.
      may be described as:
        By what was seen, this unit may be described as having all parts of Merrowby Petrel 11 Cartridge, nameplate not confirmed; the maker’s confirmation of the plate is the last word.
        Whether this unit may be described as Merrowby Petrel 11 Cartridge is not yet settled.
      must not be described as:
        This unit must not be described as Merrowby Petrel 11 Cartridge before the maker has confirmed its nameplate.
        This unit must not be described as a Merrowby unit: its parts are Merrowby’s, and no plate confirms the whole.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // Jory copies the serial number off a greasy plate, and its check digit does not come out.
  test('[O5] a serial number misread by a figure', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        seen: { 'nameplate-serial-text': 'R 0104 00317 3', 'nameplate-year': 2001 },
        claimed: ['merrowby', 'Petrel 11 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['stands', ['Merrowby Petrel 11 Cartridge']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Petrel 11 Cartridge stands: in every slot that makes the name, only parts listed for it agree with what was seen.
      to be said beside it:
        The serial number “R 0104 00317 3” is made as Merrowby makes them but for its check digit: 3 is stamped where the figures before it give 2. It was misread, or Merrowby did not stamp it.
      may be described as:
        By what was seen, this unit may be described as Merrowby Petrel 11 Cartridge; the maker’s confirmation of the plate is the last word.
      must not be described as:
        This unit must not be named by its plate before the maker has confirmed it: what is stamped on it does not hold together.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // A Tern 7 rebuilt from the workshop that signs nothing. The heat shield is plainly theirs; bushes without a mark might be Merrowby’s own, which do not all bear one.
  test('[N3] rebuilt with service parts that bear no maker’s name', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'tern-7',
        swapped: { 'bearing-set': 'unnamed-journal-set-for-merrowby', 'heat-shield': 'unnamed-merrowby-journal-heat-shield' },
        claimed: ['merrowby', 'Tern 7'],
      }),
    );
    expect([claim, honest]).toEqual(['stands', ['Merrowby Tern 7']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Tern 7 stands: in every slot that makes the name, only parts listed for it agree with what was seen.
      may be described as:
        By what was seen, this unit may be described as Merrowby Tern 7; the maker’s confirmation of the plate is the last word.
        This unit holds a heat shield made without a maker’s name.
      must not be described as:
        This unit must not be described as counterfeit: its heat shield bears no maker’s name, and a copy that bears none is called non-genuine.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // A Gannet 12 core with its own turbine housing and a Rowan housing in front, offered as a Gannet 12.
  test('[N4] an honest hybrid, sold under one name', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'gannet-12',
        swapped: { 'compressor-housing': 'tarnwick-rowan-iv-compressor-housing' },
        absent: ['nameplate'],
        claimed: ['merrowby', 'Gannet 12'],
      }),
    );
    expect([claim, honest]).toEqual([
      'ruled out',
      ['core of Merrowby Gannet 12 with a compressor housing of Tarnwick Rowan and its own turbine housing'],
    ]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Gannet 12 is ruled out, for three independent reasons.
      because:
        The compressor housing has the cast size mark “Rowan IV”; every compressor housing listed for Merrowby Gannet 12 has the cast size mark “indigo”.
        The compressor housing has the cast name “TARNWICK”; every compressor housing listed for Merrowby Gannet 12 has the cast name “Lisle-Merrowby” or “Merrowby Rotating Machines”.
      may be described as:
        By what was seen, this unit may be described as a core of Merrowby Gannet 12 with a compressor housing of Tarnwick Rowan and its own turbine housing; a pattern part the atlas does not know cannot be excluded by eye, and there is no plate for the maker to confirm.
      must not be described as:
        This unit must not be described as Merrowby Gannet 12.
        This unit must not be described as a Tarnwick unit: the name is on the compressor housing and says nothing of the rest.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // A Rowan IV-16 whose cracked turbine housing was replaced by that of a IV-21. Everything but the plate is now a IV-21’s.
  test('[N4] a shared core with the turbine housing of the model next to it', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'rowan-iv-16',
        swapped: { 'turbine-housing': 'tarnwick-rowan-iv-turbine-housing-21' },
        claimed: ['tarnwick', 'Rowan IV-16'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['all parts of Tarnwick Rowan IV-21, nameplate of another']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Tarnwick Rowan IV-16 is ruled out, for two independent reasons.
      because:
        The turbine housing has the cast size mark “IV cringle knot”; every turbine housing listed for Tarnwick Rowan IV-16 has the cast size mark “IV anchor knot”.
        The turbine housing has an A/R of 21 mm (±0.5); every turbine housing listed for Tarnwick Rowan IV-16 has an A/R of 15.6 to 16.4 mm.
      may be described as:
        By what was seen, this unit may be described as having all parts of Tarnwick Rowan IV-21, nameplate of another; the maker’s confirmation of the plate is the last word.
      must not be described as:
        This unit must not be described as Tarnwick Rowan IV-16.
        This unit must not be described as a Tarnwick unit: its parts are Tarnwick’s, and no plate confirms the whole.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // The compressor side of a Gannet 9 with the turbine side of a Gannet 16. Every part is a Merrowby’s, and no Gannet was ever built so.
  test('[N4] two halves of two Gannets', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'gannet-9',
        swapped: {
          'turbine-wheel': 'merrowby-gannet-2-turbine-wheel',
          'turbine-housing': 'merrowby-gannet-2-turbine-housing-13',
        },
        absent: ['nameplate'],
        claimed: ['merrowby', 'Gannet 9'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['parts of the Merrowby Gannet family, of no one model']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Gannet 9 is ruled out, for three independent reasons.
      because:
        The turbine wheel has an inducer diameter of 56.9 mm (±0.05); every turbine wheel listed for Merrowby Gannet 9 has an inducer diameter of 50.54 to 50.66 mm.
        The turbine wheel has the cast mark “Gannet large”; every turbine wheel listed for Merrowby Gannet 9 has the cast mark “Gannet small”.
      may be described as:
        By what was seen, this unit may be described as made up of parts of the Merrowby Gannet family, of no one model; a pattern part the atlas does not know cannot be excluded by eye.
        By what was seen, its compressor housing (Gannet 9 compressor housing), compressor wheel, backplate (Merrowby backplate, journal core, middle), bearing housing (Merrowby journal bearing housing), bearing set (Merrowby journal set, issue a), shaft (Merrowby journal shaft), turbine wheel (Gannet large turbine wheel), heat shield (Merrowby heat shield, journal core) and turbine housing (Gannet large turbine housing, A/R 13) are Merrowby parts.
      must not be described as:
        This unit must not be described as Merrowby Gannet 9.
        This unit must not be described as a Merrowby unit: its parts are Merrowby’s, and of no one model.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // A Yawl 240 starboard offered for the port engine. Nobody has opened it; Ines follows the blades with a finger.
  test('[N1] it turns the other way round', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'yawl-240-starboard',
        looks: [...asReceived, 'compressor-wheel-rotation', 'turbine-wheel-rotation', 'compressor-housing-volute-hand'],
        absent: ['nameplate'],
        claimed: ['osterhal', 'Yawl 240 port'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['Osterhal Yawl 240 starboard']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Osterhal Yawl 240 port is ruled out, for four independent reasons.
      because:
        The compressor housing has the cast size mark “240 S”; every compressor housing listed for Osterhal Yawl 240 port has the cast size mark “240 P”.
        The compressor housing has a volute that runs clockwise seen from the compressor end; every compressor housing listed for Osterhal Yawl 240 port has a volute that runs anticlockwise seen from the compressor end.
      may be described as:
        By what was seen, this unit may be described as Osterhal Yawl 240 starboard; a pattern part the atlas does not know cannot be excluded by eye, and there is no plate for the maker to confirm.
      must not be described as:
        This unit must not be described as Osterhal Yawl 240 port.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // A Gannet 12 with a left-hand nut on a left-hand stub thread. It turns anticlockwise: every start undoes it a little.
  test('[C1] a left-hand nut where the maker fits a right-hand one', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'gannet-12',
        seen: { 'compressor-wheel-nut-hand': 'left', 'shaft-thread-hand': 'left', 'compressor-wheel-rotation': 'anticlockwise' },
        claimed: ['merrowby', 'Gannet 12'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Gannet 12 is ruled out, for two independent reasons.
      because:
        The compressor wheel has a left-hand nut; every compressor wheel listed for Merrowby Gannet 12 has a right-hand nut.
        The shaft has a left-hand stub thread; every shaft listed for Merrowby Gannet 12 has a right-hand stub thread.
      whatever it is called:
        The compressor wheel has 6 full blades and a left-hand nut; no listed compressor wheel is like that.
        The compressor wheel has the cast mark “Ga indigo” and a left-hand nut; no listed compressor wheel is like that.
      to be said beside it:
        No compressor wheel in the atlas has everything that was seen on this one (113 are listed): it is a part the atlas does not list, or an entry is wrong.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing (Gannet 12 compressor housing), backplate (Merrowby backplate, journal core, middle), bearing housing (Merrowby journal bearing housing), heat shield (Merrowby heat shield, journal core), turbine housing and nameplate (nameplate Gannet 12, Lisle-Merrowby) are Merrowby parts.
      must not be described as:
        This unit must not be described as Merrowby Gannet 12.
        This unit must not be described as a Merrowby unit: the name is on every part, and no name stands for the whole.
        This unit must not be described as any maker’s unit."
    `);
  });

  // A Petrel 11 run dry of water by somebody who plugged the ports flush and painted the plugs. The sheet says there are none.
  test('[O7] water ports plugged and painted over', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        seen: { 'bearing-housing-water-ports': false },
        claimed: ['merrowby', 'Petrel 11 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Everything against Merrowby Petrel 11 Cartridge rests on this reading: the bearing housing has no water ports. Look again.
        Merrowby Petrel 11 Cartridge is ruled out, for one reason.
      because:
        The bearing housing has no water ports; every bearing housing listed for Merrowby Petrel 11 Cartridge has water ports.
        No listed bearing housing without water ports fits any bearing set listed for Merrowby Petrel 11 Cartridge (bearing set in bearing housing).
      whatever it is called:
        The bearing housing has the casting mark “HULL 6 water a” and no water ports; no listed bearing housing is like that.
        The bearing housing has the cast name “Merrowby Rotating Machines”, ribs joined by a ring and no water ports; no listed bearing housing is like that.
      to be said beside it:
        No bearing housing in the atlas has everything that was seen on this one (26 are listed): it is a part the atlas does not list, or an entry is wrong.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing (Petrel 11 compressor housing), compressor wheel, backplate (Merrowby backplate, cartridge core, middle), bearing set (Merrowby ball-bearing cartridge, issue a), shaft (Merrowby cartridge shaft), turbine wheel (Petrel middle turbine wheel), heat shield (Merrowby heat shield, cartridge core), turbine housing (Petrel middle turbine housing, A/R 12) and nameplate (nameplate Petrel 11 Cartridge, Merrowby Rotating Machines) are Merrowby parts.
      must not be described as:
        This unit must not be described as Merrowby Petrel 11 Cartridge.
        This unit must not be described as a Merrowby unit: the name is on every part, and no name stands for the whole.
        This unit must not be described as any maker’s unit."
    `);
  });

  // A Ketch 160 that was given the turbine housing of a Ketch 180. Spigot and bolts fit, as they have since 1961.
  test('[J1] a twin-entry housing on a single-entry wheel', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'ketch-160-port',
        swapped: { 'turbine-housing': 'osterhal-ketch-180-port-turbine-housing-27' },
        seen: { 'turbine-wheel-entry': 'single' },
        claimed: ['osterhal', 'Ketch 160 port'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "still open:
        core of Osterhal Ketch 160 port with unidentified housings
      the claim:
        Osterhal Ketch 160 port is ruled out, for two independent reasons.
      because:
        The turbine housing has the cast size mark “180 27”; every turbine housing listed for Osterhal Ketch 160 port has the cast size mark “160 27” or “160 32”.
        The turbine housing has a twin entry; every turbine housing listed for Osterhal Ketch 160 port has a single entry.
      whatever it is called:
        No listed turbine wheel with tips cut for single entry fits any listed turbine housing with the cast size mark “180 27”, machined or not (turbine wheel in its contour).
        No listed turbine wheel with the cast mark “buoy 160 T” fits any listed turbine housing with the cast size mark “180 27”, machined or not (turbine wheel in its contour).
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing (Ketch 160 port compressor housing), compressor wheel (Ketch 160 port compressor wheel), backplate (Ketch backplate), bearing housing (Ketch bearing housing), bearing set (Ketch journal set, issue a), shaft (Ketch shaft, port), heat shield (Ketch heat shield, issue a) and nameplate (nameplate Ketch 160 port) are Osterhal parts.
        Whether this unit may be described as a core of Osterhal Ketch 160 port with unidentified housings is not yet settled.
      must not be described as:
        This unit must not be described as Osterhal Ketch 160 port.
        This unit must not be described as an Osterhal unit: the name is on every part, and no name stands for the whole.
        This unit must not be described as any maker’s unit before the open names are settled."
    `);
  });

  // A bare core without letters, two bushes and a friction weld. Nobody has measured the compressor wheel.
  test('[N4] a copy whose size is not settled', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'northquay-13',
        looks: asReceived,
        seen: { 'turbine-wheel-weld': 'friction', 'bearing-set-kind': 'journal' },
        absent: ['compressor-housing', 'turbine-housing', 'nameplate'],
        claimed: ['merrowby', 'Petrel 13 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['pattern part core after the Merrowby Petrel family, size not settled']]);
    expect(says).toMatchInlineSnapshot(`
      "still open:
        pattern part core (pattern of Merrowby Petrel 11 Cartridge, no maker’s name)
        pattern part core (pattern of Merrowby Petrel 13 Cartridge, no maker’s name)
        pattern part core (pattern of Merrowby Petrel 17 Cartridge, no maker’s name)
      the claim:
        Merrowby Petrel 13 Cartridge is ruled out, for ten independent reasons.
      because:
        The bearing housing has no casting mark; every bearing housing listed for Merrowby Petrel 13 Cartridge has the casting mark “HULL 6 water a”, “HULL 6 water b” or “HULL 6 water c”.
        The bearing housing has no cast name; every bearing housing listed for Merrowby Petrel 13 Cartridge has the cast name “Merrowby Rotating Machines” or “Merrowby”.
      may be described as:
        By what was seen, this unit may be described as a pattern part core after the Merrowby Petrel family, size not settled; a pattern part the atlas does not know cannot be excluded by eye.
        By what was seen, its compressor wheel, bearing housing, bearing set and turbine wheel are pattern parts, made without a maker’s name.
        Whether this unit may be described as a pattern part core (pattern of Merrowby Petrel 11 Cartridge, no maker’s name), a pattern part core (pattern of Merrowby Petrel 13 Cartridge, no maker’s name) or a pattern part core (pattern of Merrowby Petrel 17 Cartridge, no maker’s name) is not yet settled.
      must not be described as:
        This unit must not be described as Merrowby Petrel 13 Cartridge.
        This unit must not be described as counterfeit: its bearing housing bears no maker’s name, and a copy that bears none is called non-genuine.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // Northquay’s core between two true Petrel 13 housings, offered by what is cast on them. Changing a housing takes minutes.
  test('[N5] a nameless core in a known maker’s housings', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'northquay-13',
        swapped: {
          'compressor-housing': 'merrowby-petrel-13-compressor-housing',
          'turbine-housing': 'merrowby-petrel-2-turbine-housing-14',
        },
        absent: ['nameplate'],
        claimed: ['merrowby', 'Petrel 13 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['pattern part core (pattern of Merrowby Petrel 13 Cartridge, no maker’s name)']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Petrel 13 Cartridge is ruled out, for 17 independent reasons.
      because:
        The bearing housing has no casting mark; every bearing housing listed for Merrowby Petrel 13 Cartridge has the casting mark “HULL 6 water a”, “HULL 6 water b” or “HULL 6 water c”.
        The bearing housing has no cast name; every bearing housing listed for Merrowby Petrel 13 Cartridge has the cast name “Merrowby Rotating Machines” or “Merrowby”.
      may be described as:
        By what was seen, this unit may be described as a pattern part core (pattern of Merrowby Petrel 13 Cartridge, no maker’s name); a pattern part the atlas does not know cannot be excluded by eye.
        By what was seen, its compressor housing (Petrel 13 compressor housing) and turbine housing (Petrel middle turbine housing, A/R 14) are Merrowby parts.
        By what was seen, its compressor wheel, bearing housing, bearing set, shaft, turbine wheel and heat shield are pattern parts, made without a maker’s name.
      must not be described as:
        This unit must not be described as Merrowby Petrel 13 Cartridge.
        This unit must not be described as a Merrowby unit: the name is on the compressor housing and turbine housing and says nothing of the rest.
        This unit must not be described as counterfeit: its compressor wheel, bearing housing, bearing set, shaft, turbine wheel and heat shield bear no maker’s name, and a copy that bears none is called non-genuine.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // Northquay’s work in every part, and MERROWBY across the bearing housing.
  test('[O4] a copy that bears a cast maker’s name', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'northquay-13',
        seen: { 'bearing-housing-cast-name': 'MERROWBY' },
        absent: ['nameplate'],
        claimed: ['merrowby', 'Petrel 13 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Merrowby Petrel 13 Cartridge is ruled out, for 20 independent reasons.
      because:
        The bearing housing has no casting mark; every bearing housing listed for Merrowby Petrel 13 Cartridge has the casting mark “HULL 6 water a”, “HULL 6 water b” or “HULL 6 water c”.
        The bearing housing has no water ports; every bearing housing listed for Merrowby Petrel 13 Cartridge has water ports.
      whatever it is called:
        The bearing housing has no casting mark and the cast name “MERROWBY”; no listed bearing housing is like that.
        The bearing housing has no water ports and the cast name “MERROWBY”; no listed bearing housing is like that.
      to be said beside it:
        But for the cast name “MERROWBY” this bearing housing is the Northquay bearing housing for the Petrel pattern, a pattern part the atlas knows only without a maker’s name. A pattern part that bears a maker’s name is counterfeit, not merely non-genuine; only the maker can settle whose it is.
        No bearing housing in the atlas has everything that was seen on this one (26 are listed): it is a part the atlas does not list, or an entry is wrong.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing, compressor wheel, bearing set, shaft, turbine wheel and turbine housing are pattern parts, made without a maker’s name.
      must not be described as:
        This unit must not be described as Merrowby Petrel 13 Cartridge.
        This unit must not be described as a Merrowby unit: the name is on the bearing housing and says nothing of the rest.
        This unit must not be described as merely non-genuine before the maker has spoken: its bearing housing looks like a pattern part and bears a maker’s name.
        This unit must not be described as any maker’s unit."
    `);
  });

  // Bartel’s own work: an Alder III housing bored and recontoured for a Tern 7 core, then measured on the bench.
  test('[O2] a stranger’s housing, machined to the core', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'tern-7',
        swapped: { 'compressor-housing': 'tarnwick-alder-iii-compressor-housing' },
        seen: {
          'compressor-housing-recess': [96.31, 0.005],
          'compressor-housing-inducer-contour': [35.8, 0.02],
          'compressor-housing-exducer-contour': [49.5, 0.02],
        },
        absent: ['nameplate'],
      }),
    );
    expect([claim, honest]).toEqual([
      null,
      ['core of Merrowby Tern 7 with a compressor housing of Tarnwick Alder and its own turbine housing'],
    ]);
    expect(says).toMatchInlineSnapshot(`
      "to be said beside it:
        The compressor housing is an Alder III compressor housing, machined: it is not made with a backplate recess diameter of 96.31 mm (±0.01), which “open the backplate recess” could have left, nor with an inducer contour diameter of 35.8 mm (±0.04) and an exducer contour diameter of 49.5 mm (±0.04), which “cut the contour to the wheel” could have left.
      may be described as:
        By what was seen, this unit may be described as a core of Merrowby Tern 7 with a compressor housing of Tarnwick Alder and its own turbine housing; a pattern part the atlas does not know cannot be excluded by eye, and there is no plate for the maker to confirm.
        This unit’s compressor housing was machined.
      must not be described as:
        This unit must not be described as a Tarnwick unit: the name is on the compressor housing and says nothing of the rest.
        This unit must not be described as unmodified: its compressor housing was machined.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // Offered as a “Tern 4 Cartridge”. What lies on the bench is an honest Tern 4 without its plate.
  test('[N6] a name nobody ever made', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'tern-4',
        absent: ['nameplate'],
        claimed: ['merrowby', 'Tern 4 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['all parts of Merrowby Tern 4, nameplate missing']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        “Tern 4 Cartridge” is no name of Merrowby.
        Shearwater, Dunlin, Fulmar and Tern were never built on a cartridge.
        “Cartridge” promises a bearing set with ball bearings in a cartridge: what was seen rules that out.
        The nearest names that exist are Merrowby Tern 4, Merrowby Petrel 6 Cartridge and Merrowby Petrel 8 Cartridge.
      may be described as:
        By what was seen, this unit may be described as having all parts of Merrowby Tern 4, nameplate missing; a pattern part the atlas does not know cannot be excluded by eye, and there is no plate for the maker to confirm.
      must not be described as:
        This unit must not be described as “Tern 4 Cartridge”. “Tern 4 Cartridge” is no name of Merrowby.
        This unit must not be described as a Merrowby unit: its parts are Merrowby’s, and no plate confirms the whole.
        This unit must not be described as genuine on looks alone."
    `);
  });

  // “Genuine Merrowby Petrel 13 Cartridge, ball bearing, 6+6 and 10 blades, water cooled.” There is no picture.
  test('[O1] a listing that tells much and shows nothing', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-13-cartridge',
        looks: [],
        told: {
          'compressor-housing-cast-name': 'Merrowby',
          'compressor-wheel-full-blades': 6,
          'bearing-set-kind': 'cartridge',
          'bearing-housing-water-ports': true,
          'turbine-wheel-blades': 10,
        },
        claimed: ['merrowby', 'Petrel 13 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['open', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "still open:
        Merrowby Shearwater 2
        Merrowby Shearwater 4
        Merrowby Shearwater 9
        Merrowby Dunlin 1
        and 71 more
      the claim:
        Merrowby Petrel 13 Cartridge is open: the compressor housing, the compressor wheel, the backplate, the bearing housing, the bearing set, the shaft, the turbine wheel, the turbine housing and the nameplate are not settled.
      to be said beside it:
        Nothing seen so far confirms or denies what was told: that the compressor housing has the cast name “Merrowby”; that the compressor wheel has 6 full blades; that the bearing housing has water ports; that the bearing set has ball bearings in a cartridge; that the turbine wheel has 10 blades.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        Whether this unit may be described as Merrowby Shearwater 2, Merrowby Shearwater 4, Merrowby Shearwater 9, Merrowby Dunlin 1 or 71 other names is not yet settled.
      must not be described as:
        This unit must not be described as Merrowby Petrel 13 Cartridge before its open slots are settled.
        This unit must not be described as any maker’s unit before the open names are settled."
    `);
  });

  // The wheel is 54.0 mm over the exducer. Jory reads 54.0, and writes 45.0.
  test('[O7] a caliper reading with its figures exchanged', () => {
    const { claim, honest, says } = asTold(
      foundUnit({
        built: 'petrel-11-cartridge',
        seen: { 'compressor-wheel-exducer': [45, 0.025] },
        claimed: ['merrowby', 'Petrel 11 Cartridge'],
      }),
    );
    expect([claim, honest]).toEqual(['ruled out', ['no name: a list of parts']]);
    expect(says).toMatchInlineSnapshot(`
      "the claim:
        Everything against Merrowby Petrel 11 Cartridge rests on this reading: the compressor wheel has an exducer diameter of 45 mm (±0.05). Look again.
        Merrowby Petrel 11 Cartridge is ruled out, for one reason.
      because:
        The compressor wheel has an exducer diameter of 45 mm (±0.05); no listed compressor wheel is like that.
      to be said beside it:
        No compressor wheel in the atlas has everything that was seen on this one (113 are listed): it is a part the atlas does not list, or an entry is wrong.
      may be described as:
        This unit may be described as a turbocharger made up of parts, with no name for the whole.
        By what was seen, its compressor housing (Petrel 11 compressor housing), backplate (Merrowby backplate, cartridge core, middle), bearing housing (Merrowby cartridge bearing housing, issue a), bearing set (Merrowby ball-bearing cartridge, issue a), shaft (Merrowby cartridge shaft), turbine wheel (Petrel middle turbine wheel), heat shield (Merrowby heat shield, cartridge core), turbine housing (Petrel middle turbine housing, A/R 12) and nameplate (nameplate Petrel 11 Cartridge, Merrowby Rotating Machines) are Merrowby parts.
      must not be described as:
        This unit must not be described as Merrowby Petrel 11 Cartridge.
        This unit must not be described as a Merrowby unit: the name is on every part, and no name stands for the whole.
        This unit must not be described as any maker’s unit."
    `);
  });
});
