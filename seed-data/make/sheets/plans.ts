import type { Chapter, SheetDraft } from '../pack/draft.ts';
import { planned } from './sheet.ts';

/** A model's own parts slot by slot: what names it where something does, else what it was sold with. */
const partsOf = (chapters: readonly Chapter[], model: string): Record<string, string> => {
  const listed = chapters.flatMap((chapter) => chapter.allowed).filter((each) => each.model === model);
  if (listed.length === 0) throw new Error(`no model ${model} to build from`);
  const chosen: Record<string, string> = {};
  for (const role of ['names', 'service', 'option'] as const) {
    for (const each of listed) if (each.role === role) chosen[each.slot] ??= each.part;
  }
  return chosen;
};

/** Builds on paper, before any metal is cut. */
export const planSheets = (chapters: readonly Chapter[]): readonly SheetDraft[] => {
  const build = (model: string, changes: Readonly<Record<string, string>>) => ({ ...partsOf(chapters, model), ...changes });
  return [
    planned(
      {
        id: 's23-rowan-on-gannet',
        title: 'A Tarnwick housing on a Gannet core',
        story:
          'A customer’s Gannet 12 has a cracked compressor housing, and there is a Rowan IV housing on the shelf. Same bolts, same recess, and the wheel clears. What may the unit be called afterwards?',
      },
      build('gannet-12', { 'compressor-housing': 'tarnwick-rowan-iv-compressor-housing' }),
    ),
    planned(
      {
        id: 's24-alder-on-tern',
        title: 'An Alder housing on a Tern core, after machining',
        story:
          'The same question for a Tern 7 with only an Alder III housing to hand. The bolts line up, but the recess will not go over the backplate and the contour touches the wheel. Bartel wants to know what to open, and to what size.',
      },
      build('tern-7', { 'compressor-housing': 'tarnwick-alder-iii-compressor-housing' }),
    ),
    planned(
      {
        id: 's25-rowan-fouls-tern',
        title: 'Looks right, fouls the wheel',
        story:
          'Held against each other on the bench, a Rowan III housing is a Tern 10’s twin: bolts, recess, both mouths. Jory would have bolted it on. The contour is for a wheel 1.7 mm smaller.',
      },
      build('tern-10', { 'compressor-housing': 'tarnwick-rowan-iii-compressor-housing' }),
    ),
    planned(
      {
        id: 's26-cartridge-into-journal-core',
        title: 'A cartridge for an old Gannet',
        story:
          'A customer has read about cartridges and wants one in his journal Gannet 16. Bore, shaft and water are all against it, and it is as well to be able to show him which.',
        claimed: ['merrowby', 'Gannet 16 Cartridge'],
      },
      build('gannet-16', { 'bearing-set': 'merrowby-cartridge' }),
    ),
    planned(
      {
        id: 's27-starboard-wheel-on-port-shaft',
        title: 'A starboard wheel on a port shaft',
        story:
          'Two Yawls, one good wheel between them. It has the right size and the right bore. It also has a left-hand nut and blades for the other direction of rotation.',
      },
      build('yawl-240-port', { 'compressor-wheel': 'osterhal-yawl-240-starboard-compressor-wheel' }),
    ),
    planned(
      {
        id: 's28-single-housing-on-twin-ketch',
        title: 'A single-entry housing on a twin-entry Ketch',
        story:
          'The twin-entry housing is burnt through and an old single-entry one lies in the yard. Spigot and bolts have not changed since 1961; the turbine tips have.',
      },
      build('ketch-180-port', { 'turbine-housing': 'osterhal-ketch-160-port-turbine-housing-27' }),
    ),
    planned(
      {
        id: 's29-first-skua-from-petrel',
        title: 'A Skua out of a Petrel',
        story:
          'With a first Skua’s shaft and wheel in a Petrel 13, only the plate would still say Petrel. Bartel would like to know beforehand what the counter may write.',
        claimed: ['merrowby', 'Skua 13 Cartridge'],
      },
      build('petrel-13-cartridge', { 'turbine-wheel': 'merrowby-skua-1-2-turbine-wheel' }),
    ),
  ];
};
