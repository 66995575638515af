import type { SheetDraft } from '../pack/draft.ts';
import { merrowbyNumber } from '../world/merrowby/maker.ts';
import type { Look } from './look.ts';
import { found, measured, seenChoice, seenCount, seenMark, seenPresence, told } from './sheet.ts';

/** Units on the Merrowby journal core, where one bearing housing and one shaft served five families. */
export const journalCoreSheets = (look: Look): readonly SheetDraft[] => [
  found(
    {
      id: 's11-one-shaft-three-heads',
      title: 'Three heads for one shaft',
      story:
        'A core without housings, from a crate of spares. Everything from the weld to the thread is the Merrowby journal shaft, and that says nothing: five families had it. Jory is sent to look at the head.',
    },
    [
      seenMark('bearing-housing', 'cast-name', 'LISLE-MERROWBY'),
      seenPresence('bearing-housing', 'water-ports', false),
      measured('shaft', 'running', 9.365, 0.0025),
      seenCount('turbine-wheel', 'blades', 10),
      seenChoice('turbine-wheel', 'cutback', 'half'),
      measured('turbine-wheel', 'inducer', 50.6, 0.025),
    ],
    ['compressor-housing', 'turbine-housing', 'nameplate'],
  ),
  found(
    {
      id: 's12-housing-of-five-families',
      title: 'A bearing housing and nothing else',
      story:
        'Somebody telephones: "I have a Merrowby bearing housing here, four straight ribs, oil only. What is it worth as a Tern?" It may be a Tern. It may be one of sixteen other models, in five families.',
      claimed: ['merrowby', 'Tern 7'],
    },
    [
      ...look('merrowby-journal-bearing-housing', 'cast-mark', 'water-ports', 'ribs', 'rib-pattern'),
      told(seenMark('compressor-wheel', 'mark', 'Te fern'), 'on the telephone'),
    ],
  ),
  found(
    {
      id: 's13-rebuilt-tern',
      title: 'Rebuilt, and may keep its name',
      story:
        'A Tern 7 that Bartel’s predecessor rebuilt: bushes and heat shield from the workshop that everybody buys from and that signs nothing. Those wear and are meant to be replaced. Wheels, shaft, housings and plate are as they were.',
      claimed: ['merrowby', 'Tern 7'],
    },
    [
      ...look('merrowby-tern-7-compressor-housing', 'cast-mark', 'outlet-form'),
      seenMark('compressor-housing', 'cast-name', 'Lisle-Merrowby'),
      ...look('merrowby-tern-7-compressor-wheel', 'full-blades', 'splitter-blades', 'exducer', 'mark'),
      ...look('merrowby-journal-bearing-housing', 'cast-mark', 'ribs', 'rib-pattern'),
      ...look('unnamed-journal-set-for-merrowby', 'kind', 'mark'),
      ...look('merrowby-journal-shaft', 'mark', 'steps'),
      ...look('merrowby-tern-2-turbine-wheel', 'blades', 'inducer', 'weld', 'mark'),
      ...look('unnamed-merrowby-journal-heat-shield', 'slots', 'outside', 'mark'),
      ...look('merrowby-tern-2-turbine-housing-10', 'cast-mark', 'area-ratio', 'flange'),
      seenMark('turbine-housing', 'cast-name', 'Lisle-Merrowby'),
      seenMark('nameplate', 'number', merrowbyNumber('nameplate', 'merrowby-tern-7', 1)),
      seenMark('nameplate', 'trade-name', 'Lisle-Merrowby'),
      seenCount('nameplate', 'year', 1983),
      seenChoice('nameplate', 'fixing', 'factory-rivets'),
    ],
  ),
  found(
    {
      id: 's14-honest-hybrid',
      title: 'An honest hybrid',
      story:
        'Sold as what it is: "Gannet 12 core, Tarnwick housing in front, my own work." The Rowan housing drops straight on. A good unit, and it may be written down as just that and as nothing more.',
    },
    [
      seenMark('compressor-housing', 'cast-name', 'TARNWICK'),
      ...look('tarnwick-rowan-iv-compressor-housing', 'cast-mark', 'outlet', 'recirculation-slot'),
      ...look('merrowby-gannet-12-compressor-wheel', 'full-blades', 'splitter-blades', 'exducer', 'mark'),
      ...look('merrowby-journal-bearing-housing', 'cast-mark', 'water-ports', 'ribs', 'rib-pattern'),
      ...look('merrowby-journal-shaft', 'mark', 'steps', 'inner-races'),
      ...look('merrowby-gannet-1-turbine-wheel', 'blades', 'cutback', 'weld', 'mark'),
      seenMark('turbine-housing', 'cast-name', 'Merrowby Rotating Machines'),
      ...look('merrowby-gannet-1-turbine-housing-13', 'cast-mark', 'area-ratio'),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's15-one-head-two-shafts',
      title: 'The same head on two shafts',
      story:
        'A Gannet, that is certain, and the sticker says Cartridge. But late and early Gannets carry the same turbine wheel, once on the journal shaft and once on the cartridge shaft, and nobody has looked for water ports yet.',
      claimed: ['merrowby', 'Gannet 12 Cartridge'],
    },
    [
      ...look('merrowby-gannet-1-turbine-wheel', 'blades', 'cutback', 'mark'),
      ...look('merrowby-gannet-12-compressor-housing', 'cast-mark'),
      ...look('merrowby-gannet-12-compressor-wheel', 'full-blades', 'splitter-blades', 'mark'),
      told(seenChoice('bearing-set', 'kind', 'cartridge'), 'the sticker on the box'),
    ],
  ),
  found(
    {
      id: 's16-plate-out-of-time',
      title: 'A plate out of its time',
      story:
        'The plate says Lisle Air Engines and 1998. That name was painted over in 1974. Either the name or the year was stamped by somebody who had not read up on it.',
      claimed: ['merrowby', 'Dunlin 3'],
    },
    [
      seenMark('nameplate', 'trade-name', 'Lisle Air Engines'),
      seenCount('nameplate', 'year', 1998),
      seenMark('nameplate', 'number', merrowbyNumber('nameplate', 'merrowby-dunlin-3', 1)),
      seenChoice('nameplate', 'fixing', 'factory-rivets'),
      ...look('merrowby-dunlin-3-compressor-wheel', 'full-blades', 'splitter-blades', 'mark'),
      ...look('merrowby-journal-bearing-housing', 'cast-mark', 'water-ports'),
    ],
  ),
];
