import type { Member } from '../answer/verdict.ts';
import type { Fact, Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { Demand } from '../compile/name-rule.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import { list, withArticle } from '../plain/text.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Unit } from '../unit/unit.ts';
import { hasOneOf, hasPhrase } from './has-phrase.ts';

/** What a sentence needs to know of the name it is about. */
export interface NameInWords {
  /** `Merrowby Petrel 13 Cartridge`, `the core of …`. */
  readonly text: string;
  readonly demands: readonly Demand[];
  /** Of a name that says only that the unit is one of several, what those are: `model of the Merrowby Gannet family`. */
  readonly oneOf: string | null;
}

interface Piece {
  readonly slot: CompiledSlot;
  readonly observations: readonly Observation[];
  readonly absent: boolean;
  readonly demanded: boolean;
}

/** One sentence a customer understands for one conflict (K2), made from its members and nothing else. */
export const conflictSentence = (unit: Unit, members: readonly Member[], name: NameInWords | null): string => {
  const pieces = piecesOf(unit, members);
  const joints = members.flatMap((member) => (member.kind === 'joint' ? [member.joint] : []));
  const [first] = pieces;
  if (joints.length === 0 && pieces.length === 1 && first) return singleSlot(unit, first, name);
  const jointNames = joints.map((id) => unit.atlas.joints.find(({ data: joint }) => joint.id === id)?.data.name ?? id);
  const demanded = pieces.filter((piece) => piece.demanded);
  if (name !== null && name.oneOf !== null && demanded.length > 1) return noneHasAll(unit, pieces, jointNames, name.oneOf);
  const touched = new Set(pieces.map(({ slot }) => slot.number));
  const bare = jointSlots(unit.atlas, joints).filter((slot) => !touched.has(slot.number));
  // What was seen comes first: it is what the reader can look at.
  const told = [
    ...pieces.filter(({ observations }) => observations.length > 0),
    ...pieces.filter(({ observations }) => observations.length === 0),
  ];
  const parts = [...told.map((piece) => partPhrase(unit, piece, name)), ...bare.map((slot) => `listed ${slot.data.name}`)];
  const where = jointNames.length === 0 ? '' : ` (${jointNames.join(', ')})`;
  // J1: where something could be done to either part, it would not help.
  const work = joints.some((id) => isWorkedAt(unit, id)) ? ', machined or not' : '';
  return parts.length === 2
    ? `No ${parts[0]} fits any ${parts[1]}${work}${where}.`
    : `No choice of ${list(parts.map(withArticle))} goes together${work}${where}.`;
};

const isWorkedAt = (unit: Unit, joint: string): boolean =>
  unit.atlas.found().worked.some((meeting) => unit.atlas.joints[meeting.joint]?.data.id === joint);

/** O2: whether an operation could change what was read of some part. */
const isWorked = ({ slot, observations }: Piece): boolean => observations.some((observation) => slot.foundOf(observation.feature).worked);

/** Each piece may belong to one of several; all of them together belong to none. */
const noneHasAll = (unit: Unit, pieces: readonly Piece[], jointNames: readonly string[], oneOf: string): string => {
  const phrases = pieces.map(({ slot, observations, absent }) => {
    const seen = list(observations.map((observation) => hasPhrase(feature(unit, observation.feature), observation)));
    const part = `a ${slot.data.name}`;
    return absent ? `no ${slot.data.name}` : seen === '' ? part : `${part} with ${seen}`;
  });
  const joints = jointNames.length === 0 ? '' : ` that go together (${jointNames.join(', ')})`;
  return `No ${oneOf} has ${list(phrases)}${joints}.`;
};

const piecesOf = (unit: Unit, members: readonly Member[]): Piece[] => {
  const bySlot = new Map<SlotId, { observations: Observation[]; absent: boolean; demanded: boolean }>();
  const at = (slot: SlotId) => {
    const known = bySlot.get(slot) ?? { observations: [], absent: false, demanded: false };
    bySlot.set(slot, known);
    return known;
  };
  for (const member of members) {
    switch (member.kind) {
      case 'observation': {
        const observation = unit.sheet.observations.find(({ id }) => id === member.observation) as Observation;
        at(observation.slot).observations.push(observation);
        break;
      }
      case 'absent':
        at(member.slot).absent = true;
        break;
      case 'rule':
        at(member.slot).demanded = true;
        break;
      case 'joint':
        break;
    }
  }
  return unit.atlas.slots.flatMap((slot) => {
    const found = bySlot.get(slot.data.id);
    return found ? [{ slot, ...found }] : [];
  });
};

const jointSlots = (atlas: CompiledAtlas, ids: readonly string[]): CompiledSlot[] => {
  const numbers = new Set(atlas.joints.flatMap(({ data: joint, a, b }) => (ids.includes(joint.id) ? [a, b] : [])));
  return atlas.slots.filter(({ number }) => numbers.has(number));
};

const singleSlot = (unit: Unit, piece: Piece, name: NameInWords | null): string => {
  const slot = piece.slot.data.name;
  if (piece.absent) return name ? `There is no ${slot} with the unit, and ${name.text} has one.` : `There is no ${slot} with the unit.`;
  const seen = list(piece.observations.map((observation) => hasPhrase(feature(unit, observation.feature), observation)));
  const like = `is like that${isWorked(piece) ? ', machined or not' : ''}`;
  if (!piece.demanded || name === null) return `The ${slot} has ${seen}; no listed ${slot} ${like}.`;
  const demand = name.demands[piece.slot.number] ?? null;
  const parts = demand === null ? [] : [...demand].map((part) => piece.slot.parts[part]);
  if (parts.length === 0) return `The atlas lists no ${slot} for ${name.text}.`;
  const [only] = piece.observations;
  if (piece.observations.length === 1 && only) {
    const facts = parts.map((part) => part?.facts[only.feature] ?? notKnown);
    const work = isWorked(piece) ? ' as it is made, and nothing the atlas knows to be done to it leaves what was read' : '';
    return `The ${slot} has ${seen}; every ${slot} listed for ${name.text} has ${hasOneOf(feature(unit, only.feature), facts)}${work}.`;
  }
  return `The ${slot} has ${seen}; no ${slot} listed for ${name.text} ${like}.`;
};

/** What a conflict says of one slot's part, to stand after "no" or "any": `listed shaft with a left-hand stub thread`. */
const partPhrase = (unit: Unit, piece: Piece, name: NameInWords | null): string => {
  const slot = piece.slot.data.name;
  if (piece.absent) return `missing ${slot}`;
  const seen = list(piece.observations.map((observation) => hasPhrase(feature(unit, observation.feature), observation)));
  if (piece.demanded && name) return `${slot} listed for ${name.text}${seen === '' ? '' : ` that has ${seen}`}`;
  return `listed ${slot} ${seen.startsWith('no ') && piece.observations.length === 1 ? `without ${seen.slice(3)}` : `with ${seen}`}`;
};

const notKnown: Fact = { kind: 'not known' };
export const feature = (unit: Unit, id: FeatureId): Feature => unit.atlas.features.get(id) as Feature;
