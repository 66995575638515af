import type { SheetDraft } from '../pack/draft.ts';
import { merrowbyNumber } from '../world/merrowby/maker.ts';
import type { Look } from './look.ts';
import { found, measured, seenChoice, seenCount, seenMark, seenPresence, told } from './sheet.ts';

/** Merrowbys, and what passes for them, as they come over the counter with a claim. Ines is at the counter, Bartel builds, Jory is learning. */
export const counterSheets = (look: Look): readonly SheetDraft[] => [
  found(
    {
      id: 's01-petrel-13-claim',
      title: 'Known housing, nameless core',
      story:
        'A skipper puts a turbocharger on the counter: "Petrel 13 Cartridge, hardly run." The compressor housing says Merrowby in the casting. The plate is gone. Ines looks in at both ends and along the middle before she says anything: changing that housing takes minutes.',
      claimed: ['merrowby', 'Petrel 13 Cartridge'],
    },
    [
      seenMark('compressor-housing', 'cast-name', 'MERROWBY'),
      seenCount('compressor-wheel', 'full-blades', 7),
      seenCount('compressor-wheel', 'splitter-blades', 7),
      seenCount('turbine-wheel', 'blades', 11),
      seenPresence('bearing-housing', 'water-ports', false),
      seenMark('bearing-housing', 'cast-name', null),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's02-plate-moved',
      title: 'A plate from somewhere else',
      story:
        'The same week, another one, with its plate in place and the right number on it. But the plate sits a little crooked, and there is glue at one edge. Under the dirt the bearing housing has no letters and no water ports.',
      claimed: ['merrowby', 'Petrel 13 Cartridge'],
    },
    [
      seenMark('nameplate', 'number', merrowbyNumber('nameplate', 'merrowby-petrel-13-cartridge', 1)),
      seenMark('nameplate', 'trade-name', 'Merrowby Rotating Machines'),
      seenCount('nameplate', 'year', 2003),
      seenPresence('nameplate', 'serial', true),
      seenChoice('nameplate', 'fixing', 'glued'),
      seenPresence('bearing-housing', 'water-ports', false),
      seenMark('bearing-housing', 'cast-name', null),
      seenCount('compressor-wheel', 'full-blades', 7),
      seenCount('turbine-wheel', 'blades', 11),
      told(seenPresence('bearing-set', 'needs-water', true), 'the seller: "ball bearing, runs on water"'),
    ],
  ),
  found(
    {
      id: 's03-name-without-its-word',
      title: 'Petrel 13, says the invoice',
      story:
        'The invoice calls it a Petrel 13, and the customer wants that on the ticket. There is no such name: a Petrel has its cartridge in the name as in the housing. Bartel has it apart, and two bushes lie on the bench.',
      claimed: ['merrowby', 'Petrel 13'],
    },
    [
      seenChoice('bearing-set', 'kind', 'journal'),
      seenCount('bearing-set', 'bushes', 2),
      seenPresence('shaft', 'inner-races', false),
      measured('compressor-wheel', 'exducer', 57.1, 0.03),
      seenPresence('bearing-housing', 'water-ports', false),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's04-name-nobody-made',
      title: 'A name nobody ever made',
      story:
        'A listing offers a "Tern 4 Cartridge". Tern never had a cartridge, so that much is plain before anyone lifts the lid. What lies in the box is another matter: it looks like an honest Tern.',
      claimed: ['merrowby', 'Tern 4 Cartridge'],
    },
    [
      ...look('merrowby-tern-4-compressor-wheel', 'full-blades', 'splitter-blades', 'exducer', 'mark'),
      ...look('merrowby-tern-1-turbine-wheel', 'blades', 'cutback', 'hub-shape'),
      ...look('merrowby-journal-bearing-housing', 'water-ports', 'cast-mark', 'ribs'),
      told(seenChoice('bearing-set', 'kind', 'cartridge'), 'the listing'),
    ],
  ),
  found(
    {
      id: 's05-one-blade-more',
      title: 'One blade more than a Petrel',
      story:
        'Everything says Petrel 17, and the housings are Petrel 17. Jory counts the turbine blades twice and gets eleven both times. The first Skuas were Petrels with one blade more, and nothing else was changed.',
      claimed: ['merrowby', 'Petrel 17 Cartridge'],
    },
    [
      ...look('merrowby-petrel-17-compressor-housing', 'cast-mark', 'outlet-form', 'recirculation-slot'),
      seenMark('compressor-housing', 'cast-name', 'Merrowby'),
      ...look('merrowby-petrel-17-compressor-wheel', 'full-blades', 'splitter-blades', 'exducer', 'mark'),
      ...look('merrowby-cartridge-bearing-housing-b', 'water-ports', 'cast-mark', 'rib-pattern', 'ribs'),
      seenCount('turbine-wheel', 'blades', 11),
      seenChoice('turbine-wheel', 'cutback', 'strong'),
      seenMark('turbine-wheel', 'mark', 'Sk first large'),
      ...look('merrowby-petrel-3-turbine-housing-13', 'cast-mark', 'wastegate'),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's06-careful-copy',
      title: 'The careful copy',
      story:
        'Blade counts right, water ports there, cartridge inside, even the size mark on the turbine wheel. Bartel lays a protractor on the blade tips and reads fifteen degrees, then turns the shaft: behind the hub runs the upset ring of a friction weld.',
      claimed: ['merrowby', 'Skua 15 Cartridge'],
    },
    [
      seenMark('bearing-housing', 'cast-name', null),
      seenPresence('bearing-housing', 'water-ports', true),
      seenCount('compressor-wheel', 'full-blades', 5),
      seenCount('compressor-wheel', 'splitter-blades', 5),
      seenChoice('bearing-set', 'kind', 'cartridge'),
      ...look('breakwater-skua-2-1-turbine-wheel', 'blades', 'cutback', 'cutback-angle', 'weld', 'mark'),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's07-true-petrel',
      title: 'As it left the works',
      story:
        'A Petrel 11 from the harbour pilot, one owner, plate on its factory rivets. Jory is told to find something wrong with it and cannot. It stands; that no unknown copy can be excluded by eye is written on the ticket all the same.',
      claimed: ['merrowby', 'Petrel 11 Cartridge'],
    },
    [
      ...look('merrowby-petrel-11-compressor-housing', 'cast-name', 'cast-mark', 'recirculation-slot'),
      ...look('merrowby-petrel-11-compressor-wheel', 'full-blades', 'splitter-blades', 'exducer', 'mark'),
      ...look('merrowby-cartridge-bearing-housing', 'cast-name', 'cast-mark', 'water-ports'),
      ...look('merrowby-cartridge', 'kind', 'mark'),
      ...look('merrowby-cartridge-shaft', 'mark', 'inner-races', 'steps'),
      ...look('merrowby-cartridge-backplate-middle', 'mark', 'ribs'),
      ...look('merrowby-petrel-2-turbine-wheel', 'blades', 'cutback', 'weld', 'mark'),
      ...look('merrowby-petrel-2-turbine-housing-12', 'cast-name', 'cast-mark', 'wastegate', 'area-ratio'),
      ...look('merrowby-cartridge-heat-shield', 'slots'),
      seenMark('nameplate', 'number', merrowbyNumber('nameplate', 'merrowby-petrel-11-cartridge', 1)),
      seenMark('nameplate', 'trade-name', 'Merrowby Rotating Machines'),
      seenCount('nameplate', 'year', 2001),
      seenChoice('nameplate', 'fixing', 'factory-rivets'),
    ],
  ),
  found(
    {
      id: 's08-welded-outlet',
      title: 'Somebody welded an elbow on',
      story:
        'A second Petrel 11, but an aluminium elbow has been welded to the compressor outlet to clear a bulkhead. Ines notes it down: it says what was done to the housing, not where the housing came from.',
      claimed: ['merrowby', 'Petrel 11 Cartridge'],
    },
    [
      seenPresence('compressor-housing', 'welded-outlet', true),
      ...look('merrowby-petrel-11-compressor-housing', 'cast-name', 'cast-mark'),
      ...look('merrowby-petrel-11-compressor-wheel', 'full-blades', 'splitter-blades'),
      ...look('merrowby-cartridge-bearing-housing', 'water-ports', 'cast-mark'),
      ...look('merrowby-petrel-2-turbine-wheel', 'blades', 'cutback'),
    ],
  ),
  found(
    {
      id: 's09-letters-it-should-not-have',
      title: 'Letters it should not have',
      story:
        'Seven and seven blades, eleven turbine blades, friction weld, no water: Northquay work, as Bartel has seen it a dozen times, and those are bare of letters. This one says MERROWBY across the bearing housing. A copy without a name is one thing; a copy with somebody else’s name is another, and the ticket must not mix them up.',
      claimed: ['merrowby', 'Petrel 13 Cartridge'],
    },
    [
      seenMark('bearing-housing', 'cast-name', 'MERROWBY'),
      seenMark('bearing-housing', 'cast-mark', null),
      seenPresence('bearing-housing', 'water-ports', false),
      seenChoice('bearing-housing', 'rib-pattern', 'ring'),
      seenChoice('bearing-housing', 'bored-for', 'journal'),
      seenCount('compressor-wheel', 'full-blades', 7),
      seenCount('compressor-wheel', 'splitter-blades', 7),
      seenCount('turbine-wheel', 'blades', 11),
      seenChoice('turbine-wheel', 'weld', 'friction'),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's10-two-counts',
      title: 'Ten or eleven',
      story:
        'Jory writes ten turbine blades from the borescope, Bartel writes eleven from the open end. Both are sure. Until they have counted together, nothing follows from either.',
      claimed: ['merrowby', 'Petrel 8 Cartridge'],
    },
    [
      { ...seenCount('turbine-wheel', 'blades', 10), note: 'Jory, through the borescope' },
      { ...seenCount('turbine-wheel', 'blades', 11), note: 'Bartel, turbine housing off' },
      seenPresence('bearing-housing', 'water-ports', true),
    ],
  ),
];
