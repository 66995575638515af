import { found, measured, seenChoice, seenCount, seenMark, seenPresence, told } from './sheet.ts';

/** Units that came over the counter with a claim. */
export const counterSheets = [
  found(
    {
      id: 's01-petrel-57-claim',
      title: 'Known housing, nameless core',
      story:
        'A skipper puts a turbocharger on the counter: "Petrel 57 Cartridge, hardly run." The compressor housing says Merrowby in the casting. The plate is gone. Ines at the counter looks through both ends before she says anything.',
      claimed: ['merrowby', 'Petrel 57 Cartridge'],
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
        'The same week, another one with its plate in place and the right number on it. But the plate sits a little crooked, and there is glue at one edge. Under the dirt the bearing housing has no letters and no water ports.',
      claimed: ['merrowby', 'Petrel 57 Cartridge'],
    },
    [
      seenMark('nameplate', 'trade-name', 'Merrowby Rotating Machines'),
      seenCount('nameplate', 'year', 2003),
      seenPresence('nameplate', 'serial', true),
      seenChoice('nameplate', 'fixing', 'glued'),
      seenPresence('bearing-housing', 'water-ports', false),
      seenMark('bearing-housing', 'cast-name', null),
      told(seenPresence('bearing-set', 'needs-water', true), 'the seller: "ball bearing, runs on water"'),
    ],
  ),
  found(
    {
      id: 's03-one-shaft-three-heads',
      title: 'Three heads for one shaft',
      story:
        'A core without housings, from a crate of spares. Everything from the weld to the thread is the Merrowby journal shaft, and that says nothing: five families had it. The learner is sent to look at the head.',
    },
    [
      seenMark('bearing-housing', 'cast-name', 'LISLE-MERROWBY'),
      seenPresence('bearing-housing', 'water-ports', false),
      measured('shaft', 'running', 9.366, 0.003),
      seenCount('turbine-wheel', 'blades', 10),
      seenChoice('turbine-wheel', 'cutback', 'half'),
      measured('turbine-wheel', 'inducer', 50.5, 0.05),
    ],
    ['compressor-housing', 'turbine-housing', 'nameplate'],
  ),
];
