import type { Vocabulary } from '../../db/answers.ts';
import type { FeatureId, MakerId, Observation, Sheet, SlotId } from '../../reasoner/index.ts';
import type { Said } from '../help/said.ts';
import { label, say, typed } from '../help/said.ts';

/** What is entered of one feature in the case, by the words of the atlas. */
interface ToEnter {
  readonly slot: string;
  readonly feature: string;
  readonly value: Observation['value'];
  /** What to do once the editor is open. */
  readonly give: Said;
  readonly why: string;
}

/**
 * The case a newcomer is led through: a unit of the invented atlas with a known housing on a nameless core. A test holds its entries against the sample sheet of that
 * atlas, and the labels it quotes against the screens.
 */
export const firstCase = {
  maker: 'Merrowby',
  name: 'Petrel 13 Cartridge',
  absent: 'nameplate',
  entries: [
    {
      slot: 'compressor housing',
      feature: 'cast name',
      value: { kind: 'mark', text: 'MERROWBY' },
      give: say`MERROWBY is cast on it: write ${typed('MERROWBY')} and press Enter.`,
      why: 'A name cast on a part is proof of that part alone, for a housing is changed in minutes. The next check asked for on the right can wait: this case goes its own way.',
    },
    {
      slot: 'compressor wheel',
      feature: 'full blade count',
      value: { kind: 'count', from: 7, to: 7 },
      give: say`You count 7 full blades: write ${typed('7')} and press Enter.`,
      why: 'The full blades are the long ones, counted at the inlet with nothing taken apart. Look at the right afterwards: it says what becomes of the claim.',
    },
    {
      slot: 'compressor wheel',
      feature: 'splitter blade count',
      value: { kind: 'count', from: 7, to: 7 },
      give: say`You count 7 splitter blades: write ${typed('7')} and press Enter.`,
      why: 'The splitter blades are the short ones between them, a count of their own. If an entry is doubted on the right: it was read well, go on.',
    },
    {
      slot: 'bearing housing',
      feature: 'water ports',
      value: { kind: 'presence', present: false },
      give: say`There are none: pick ${label('not there')} with the arrow keys and press Enter.`,
      why: 'That something is not there is an observation too. Every bearing housing listed for the Petrel family has water ports, so this is none of them; it may be a pattern part, one made after them without the maker’s name.',
    },
    {
      slot: 'bearing housing',
      feature: 'cast name',
      value: { kind: 'mark', text: null },
      give: say`Nothing is cast on it: go to ${label('no letters')} with Tab, tick it with the space bar and press Enter.`,
      why: 'The compressor housing bears a name, and the bearing housing beside it none.',
    },
    {
      slot: 'turbine wheel',
      feature: 'blade count',
      value: { kind: 'count', from: 11, to: 11 },
      give: say`You count 11 blades: write ${typed('11')} and press Enter.`,
      why: 'The blades of the turbine wheel are counted at the outlet.',
    },
  ],
} as const satisfies { readonly maker: string; readonly name: string; readonly absent: string; readonly entries: readonly ToEnter[] };

/** One entry of the case by the ids of the atlas. */
export interface CaseEntry extends Omit<ToEnter, 'slot' | 'feature'> {
  readonly slot: { readonly id: SlotId; readonly name: string };
  readonly feature: { readonly id: FeatureId; readonly name: string };
}

/** The case in an atlas that has what it is about. */
export interface CaseHere {
  readonly maker: MakerId;
  readonly name: string;
  readonly absent: { readonly id: SlotId; readonly name: string };
  readonly entries: readonly CaseEntry[];
}

type Names = Pick<Vocabulary, 'makers' | 'models' | 'slots' | 'features'>;

/** Null where the atlas lacks something the case is about: it is no invented atlas then. */
export const caseIn = ({ makers, models, slots, features }: Names): CaseHere | null => {
  const maker = makers.find(({ name }) => name === firstCase.maker);
  const absent = slots.find(({ name }) => name === firstCase.absent);
  if (maker === undefined || absent === undefined || !models.some(({ name }) => name === firstCase.name)) return null;
  const entries = firstCase.entries.flatMap((entry): CaseEntry[] => {
    const slot = slots.find(({ name }) => name === entry.slot);
    const feature = features.find((one) => one.slot === slot?.id && one.name === entry.feature);
    return slot === undefined || feature === undefined ? [] : [{ ...entry, slot, feature }];
  });
  return entries.length < firstCase.entries.length ? null : { maker: maker.id, name: firstCase.name, absent, entries };
};

/** What of the sheet says something of one entry of the case. */
export const enteredFor = (sheet: Sheet, { slot, feature }: CaseEntry): readonly Observation[] =>
  sheet.observations.filter((one) => one.slot === slot.id && one.feature === feature.id);

/** Whether an entry says what the case does. What was only told is never evidence. */
export const saysSo = ({ sure, value }: Observation, { value: wanted }: CaseEntry): boolean => {
  if (sure.kind === 'told' || value.kind !== wanted.kind) return false;
  switch (wanted.kind) {
    case 'count':
      return value.kind === 'count' && value.from === wanted.from && value.to === wanted.to;
    case 'mark':
      return value.kind === 'mark' && (value.text?.trim().toLowerCase() ?? null) === (wanted.text?.toLowerCase() ?? null);
    case 'presence':
      return value.kind === 'presence' && value.present === wanted.present;
    default:
      return false;
  }
};
