import type { SheetDraft } from '../pack/draft.ts';
import type { Look } from './look.ts';
import { found, seenChoice, seenCount, seenMark, seenPresence, told } from './sheet.ts';

/** Tarnwicks, Veldmarks and Osterhals, and cores with something missing. */
export const strangerSheets = (look: Look): readonly SheetDraft[] => [
  found(
    {
      id: 's17-the-other-way-round',
      title: 'It turns the other way round',
      story:
        'Offered as a Basalt-QH for an engine that has lost one. All the sizes are right. Ines holds it up and follows the blades with a finger: clockwise. On a Basalt’s pipework it would pump nothing, and the nut would be the wrong hand besides.',
      claimed: ['veldmark', 'Basalt-QH'],
    },
    [
      seenChoice('compressor-wheel', 'rotation', 'clockwise'),
      ...look('veldmark-tuff-wf-1-compressor-wheel', 'full-blades', 'inducer'),
      seenChoice('turbine-wheel', 'rotation', 'clockwise'),
      ...look('veldmark-tuff-wf-1-turbine-wheel', 'blades', 'exducer'),
      seenMark('bearing-housing', 'cast-name', 'VELDMARK'),
      seenChoice('bearing-housing', 'joining', 'v-band'),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's18-left-hand-nut',
      title: 'The nut that came loose',
      story:
        'A "Rowan IV-18" whose compressor wheel had walked along its shaft. Bartel finds a left-hand nut on a shaft that turns anticlockwise: every start undoes it a little. No Rowan was ever made like that.',
      claimed: ['tarnwick', 'Rowan IV-18'],
    },
    [
      seenChoice('shaft', 'thread-hand', 'left'),
      seenChoice('compressor-wheel', 'nut-hand', 'left'),
      seenChoice('compressor-wheel', 'rotation', 'anticlockwise'),
      ...look('slipway-rowan-iv-compressor-wheel', 'full-blades', 'splitter-blades', 'exducer', 'mark'),
      ...look('slipway-rowan-iv-turbine-wheel', 'blades', 'cutback', 'weld'),
      seenMark('bearing-housing', 'cast-name', null),
      seenCount('bearing-housing', 'ribs', 3),
    ],
    ['nameplate'],
  ),
  found(
    {
      id: 's19-no-water',
      title: 'A cartridge without its water',
      story:
        'A bare core, "Petrel, as new". The cartridge is there, with its races on the shaft, but where the water ports should be the casting is smooth. A cartridge that needs water must get it; run dry of it, it cooks its oil after the first hot stop.',
      claimed: ['merrowby', 'Petrel 13 Cartridge'],
    },
    [
      seenPresence('bearing-housing', 'water-ports', false),
      seenChoice('bearing-set', 'kind', 'cartridge'),
      seenPresence('bearing-set', 'needs-water', true),
      seenPresence('shaft', 'inner-races', true),
      seenCount('shaft', 'steps', 6),
      ...look('merrowby-petrel-13-compressor-wheel', 'full-blades', 'splitter-blades', 'exducer'),
    ],
    ['compressor-housing', 'turbine-housing', 'nameplate'],
  ),
  found(
    {
      id: 's20-single-entry',
      title: 'Twin entry on the invoice, single in the hand',
      story:
        'A boatyard has bought a Ketch 180 for a manifold with two branches. The flange fits, as it has since 1961. Behind it there is one passage, not two, and the turbine tips are not relieved for any wall.',
      claimed: ['osterhal', 'Ketch 180 port'],
    },
    [
      seenChoice('turbine-housing', 'entry', 'single'),
      ...look('osterhal-ketch-160-port-turbine-housing-27', 'cast-mark'),
      seenChoice('turbine-wheel', 'entry', 'single'),
      seenChoice('turbine-wheel', 'rotation', 'anticlockwise'),
      ...look('osterhal-ketch-160-port-turbine-wheel', 'blades', 'exducer'),
      ...look('osterhal-ketch-bearing-housing', 'cast-mark', 'ribs'),
      told(seenChoice('turbine-housing', 'entry', 'twin'), 'the invoice'),
    ],
  ),
  found(
    {
      id: 's21-readings-that-wander',
      title: 'Readings that wander',
      story:
        'A Gneiss core on the high-speed rig. Three runs, three different readings, though nothing was touched in between. Bartel takes it off: a core that will not repeat is suspect in its bearings, whatever its plate says.',
      claimed: ['veldmark', 'Gneiss-JO'],
    },
    [
      seenPresence('bearing-set', 'repeats', false),
      seenMark('bearing-housing', 'cast-name', 'VELDMARK'),
      seenPresence('bearing-housing', 'water-ports', true),
      ...look('veldmark-gneiss-jo-1-compressor-wheel', 'full-blades', 'splitter-blades', 'mark'),
      ...look('veldmark-gneiss-jo-1-turbine-wheel', 'blades', 'cutback'),
    ],
    ['compressor-housing', 'turbine-housing'],
  ),
  found(
    {
      id: 's22-gannet-by-the-flanges',
      title: 'A Gannet as far as the flanges',
      story:
        'From a ferry’s spares locker, in a box with no label. It would bolt onto any Gannet’s pipework. Twelve turbine blades cut square, a friction weld, and not one letter on any casting.',
      claimed: ['merrowby', 'Gannet 12'],
    },
    [
      ...look('ferrygate-gannet-1-turbine-wheel', 'blades', 'cutback', 'weld'),
      seenMark('turbine-wheel', 'mark', null),
      seenMark('bearing-housing', 'cast-name', null),
      seenChoice('bearing-housing', 'rib-pattern', 'fan'),
      seenMark('compressor-housing', 'cast-name', null),
      ...look('ferrygate-gannet-12-compressor-wheel', 'exducer', 'full-blades', 'nose'),
    ],
    ['nameplate'],
  ),
];
