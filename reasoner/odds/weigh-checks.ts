import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { FeatureId, ObservationId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import { Background } from './background.ts';
import { blindOf } from './blind.ts';
import { Columns } from './columns.ts';
import { readAgain } from './entered.ts';
import type { OddsGround } from './ground.ts';
import type { JointOdds } from './joint-odds.ts';
import type { Likely } from './likely.ts';
import { logOf } from './log-of.ts';
import { givesOf, looksOf, type Runs } from './looks.ts';
import type { Posterior } from './posterior.ts';
import type { Plain, Readings } from './readings.ts';
import type { EnteredFeature } from './slot-likelihood.ts';
import { AddedUp, type TargetRows, TargetSums } from './target-sums.ts';

/** What looking at one feature is expected to tell about the honest name. */
export interface Weighed {
  readonly feature: Feature;
  readonly slot: CompiledSlot;
  /** The entries that would be read again; none where the feature was not looked at yet. */
  readonly again: readonly ObservationId[];
  /** Expected drop of entropy, bits: H(name) − Σ chance(reading)·H(name | reading) (Shannon 1948; as a choice of tests: Quinlan, "Induction of decision trees", Machine Learning 1 (1986)). */
  readonly drop: number;
  readonly readings: Readings;
  /** How likely each reading is. */
  readonly chances: Float64Array;
  /** What each reading would leave uncertain about the honest name, bits. */
  readonly bits: Float64Array;
}

/** The features still worth asking about: not seen or measured yet, of a slot that holds something. */
export const askable = ({ ground, sheet }: Pick<Posterior, 'ground' | 'sheet'>): { slot: CompiledSlot; feature: Feature }[] => {
  const settled = new Set<FeatureId>([
    ...sheet.observations.filter(({ sure }) => sure.kind !== 'told').map(({ feature }) => feature),
    ...givenUp(sheet),
  ]);
  const absent = new Set(sheet.absent);
  return ground.atlas.data.features.flatMap((feature) =>
    settled.has(feature.id) || absent.has(feature.slot)
      ? []
      : [{ feature, slot: ground.atlas.slots[ground.atlas.slotNumber.get(feature.slot) as number] as CompiledSlot }],
  );
};

/** The features that could be read again: those entered, but for what was given up since. */
export const readable = ({ sheet, slots }: Pick<Posterior, 'sheet' | 'slots'>): { slot: CompiledSlot; entered: EnteredFeature }[] => {
  const settled = givenUp(sheet);
  return slots.flatMap(({ slot, entered }) => entered.flatMap((each) => (settled.has(each.feature.id) ? [] : [{ slot, entered: each }])));
};

const givenUp = ({ unseen }: Posterior['sheet']): ReadonlySet<FeatureId> => new Set((unseen ?? []).map(({ feature }) => feature));

/** Looks weighed under the same odds, as those of sheets nothing was entered on yet are. */
const looked = new WeakMap<Posterior['joint'], Map<FeatureId, Weighed>>();

/** Every check there is: looks not made yet, then entries read again. */
export const weighAll = (posterior: Posterior): Weighed[] => {
  const backgrounds: Backgrounds = new Map();
  const known = looked.get(posterior.joint) ?? new Map<FeatureId, Weighed>();
  looked.set(posterior.joint, known);
  const look = (each: { slot: CompiledSlot; feature: Feature }): Weighed => {
    const weighed = known.get(each.feature.id) ?? weigh(posterior, each, backgrounds);
    known.set(each.feature.id, weighed);
    return weighed;
  };
  return [...askable(posterior).map(look), ...readable(posterior).map((each) => weighAgain(posterior, each))];
};

/** Room to work in, used for one feature, and one sheet, after the other. */
interface Room {
  readonly addedUp: AddedUp;
  readonly columns: Columns;
  /** By reading, sums of one feature; and those of one target, nothing in between. */
  readings: readonly [Float64Array, Float64Array, Float64Array];
  own: Float64Array;
  /** The readings one target can give, some of them perhaps twice. */
  met: Int32Array;
}

const rooms = new WeakMap<OddsGround, Room>();

const roomFor = (ground: OddsGround): Room => {
  const known = rooms.get(ground);
  if (known) return known;
  const width = ground.targets.all.length;
  const made = {
    addedUp: new AddedUp(new TargetSums(width)),
    columns: new Columns(width),
    readings: [new Float64Array(0), new Float64Array(0), new Float64Array(0)] as const,
    own: new Float64Array(0),
    met: new Int32Array(0),
  };
  rooms.set(ground, made);
  return made;
};

/** Three columns of nothing, and room for one target's, so many readings long or longer. */
const roomOfReadings = (room: Room, count: number): Room['readings'] => {
  if (room.own.length < count) {
    const column = () => new Float64Array(2 * count);
    room.readings = [column(), column(), column()];
    room.own = column();
  } else for (const column of room.readings) column.fill(0, 0, count);
  return room.readings;
};

/** What the features weighed for one posterior share, by the parts that give blind readings. */
type Backgrounds = Map<Int32Array, Background>;

/**
 * The drop for one feature, of what the posterior holds. Chance of reading o and target t: Σ over parts of chance(part, t)·chance(o | part), where a part whose fact is known gives
 * (1 − slip)·plain + slip·blind and any other gives blind.
 */
export const weigh = (
  posterior: Posterior,
  { feature, slot }: { feature: Feature; slot: CompiledSlot },
  backgrounds: Backgrounds = new Map(),
): Weighed => {
  const { readings, parts, silent, gives } = looksOf(feature, slot);
  const room = roomFor(posterior.ground);
  const joint = posterior.joint[slot.number] as JointOdds;
  const facts = room.addedUp.rows(joint, parts);
  const background = backgrounds.get(silent) ?? new Background(blindOf(posterior, facts, parts.from.length - 2, joint.lost), joint.any);
  backgrounds.set(silent, background);
  return { feature, slot, again: [], readings, ...told(posterior, readings, facts, gives, background, room) };
};

/** The drop for one feature read again: what a part gives then hangs on what was entered, of a part nothing is known of too; but much of that is as blind as slips are. */
const weighAgain = (posterior: Posterior, { slot, entered }: { slot: CompiledSlot; entered: EnteredFeature }): Weighed => {
  const { feature, entries } = entered;
  const { readings, gives, blind } = againOf(entered);
  const room = roomFor(posterior.ground);
  const joint = posterior.joint[slot.number] as JointOdds;
  const facts = room.addedUp.rows(joint, looksOf(feature, slot).parts);
  const background = new Background(blindOf(posterior, facts, gives.from.length - 2, joint.lost, blind), joint.any);
  return {
    feature,
    slot,
    again: entries.map(({ id }) => id),
    readings,
    ...told(posterior, readings, facts, gives, background, room),
  };
};

/** What the parts of a slot give when a feature is read again, fact after fact, then those nothing is known of; and how often these read as blindly as slips do. */
const againOf = keptFor(({ feature, facts, evidence }: EnteredFeature): { readings: Readings; gives: Runs; blind: number } => {
  const { readings, plain, silent } = readAgain(feature, facts, evidence);
  const { blind, own } = blindlyAnd(silent, readings.blind);
  return { readings, gives: givesOf([...plain, own]), blind };
});

/** Less than this of a reading is rounding. */
const rounding = 1e-12;

/** How often a part gives any reading as blindly as the next, and what it gives besides. */
const blindlyAnd = ({ readings, shares }: Plain, blind: Float64Array): { readonly blind: number; readonly own: Plain } => {
  const often = new Float64Array(blind.length);
  for (let i = 0; i < readings.length; i += 1)
    often[readings[i] as number] = (often[readings[i] as number] as number) + (shares[i] as number);
  let times = Number.POSITIVE_INFINITY;
  for (let reading = 0; reading < blind.length; reading += 1)
    if ((blind[reading] as number) > 0) times = Math.min(times, (often[reading] as number) / (blind[reading] as number));
  const own: number[] = [];
  for (let reading = 0; reading < blind.length; reading += 1)
    if ((often[reading] as number) * (1 - rounding) > times * (blind[reading] as number)) own.push(reading);
  return {
    blind: times,
    own: {
      readings: Int32Array.from(own),
      shares: Float64Array.from(own, (reading) => (often[reading] as number) - times * (blind[reading] as number)),
    },
  };
};

/**
 * −Σ q·log q over targets and readings has q = share·blind + any·times + own: all readings share one background, scaled, and the part without own entries is the background's. Then target after target has its own added,
 * each with the few readings its parts can give; parts with the same fact are one row.
 */
const told = (
  { bits: before, assumptions: { slip }, likely }: Posterior,
  readings: Readings,
  facts: TargetRows,
  gives: Runs,
  background: Background,
  room: Room,
): Pick<Weighed, 'drop' | 'chances' | 'bits'> => {
  const count = readings.all.length;
  const rows = gives.from.length - 1;
  const { blind, anySum } = background;
  const [any, shareLogs, logs] = roomOfReadings(room, count);
  for (let row = 0; row < rows; row += 1) {
    const weight = (1 - slip) * (facts.weights[row] as number);
    if (weight * anySum < unheardOf) continue;
    for (let i = gives.from[row] as number; i < (gives.from[row + 1] as number); i += 1) {
      const reading = gives.members[i] as number;
      any[reading] = (any[reading] as number) + weight * (gives.shares[i] as number);
    }
  }
  const { blind: share } = readings;
  const chances = new Float64Array(count);
  for (let reading = 0; reading < count; reading += 1) {
    const often = share[reading] as number;
    // Between cuts that rounding has made one nothing is ever read.
    if (often <= 0) continue;
    const sum = often * blind.sum + (any[reading] as number) * anySum;
    shareLogs[reading] = logOf(often);
    chances[reading] = sum;
    logs[reading] = sum * (shareLogs[reading] as number) + often * background.entropic((any[reading] as number) / often);
  }
  if (likely.rest >= 0) leaveApart({ share, any, logs }, background, likely);
  addOwn({ share, shareLogs, any, chances, logs }, facts, gives, background, room, 1 - slip, likely);
  const bits = new Float64Array(count);
  let left = 0;
  for (let reading = 0; reading < count; reading += 1) {
    const sum = chances[reading] as number;
    if (sum <= 0) continue;
    const apart = sum * logOf(sum) - (logs[reading] as number);
    bits[reading] = Math.max(0, apart / sum / Math.LN2);
    left += apart;
  }
  return { chances, bits, drop: Math.min(before, Math.max(0, before - left / Math.LN2)) };
};

/** What parts as rare as this would add is rounding, of all parts together. */
const unheardOf = 1e-19;

/** Of each reading: its share when blind and the logarithm of it, how many `times` what any listed part has, Σ q and Σ q·log q. */
interface Telling {
  readonly share: Float64Array;
  readonly shareLogs: Float64Array;
  readonly any: Float64Array;
  readonly chances: Float64Array;
  readonly logs: Float64Array;
}

/** Whatever is read, the targets that share a column keep their share of it: of its q, Σ q·log q over them is q·(log q − within). */
const leaveApart = (
  { share, any, logs }: Pick<Telling, 'share' | 'any' | 'logs'>,
  { blind, any: anyOf }: Background,
  { rest, within }: Likely,
): void => {
  const [ofBlind, ofAny] = [blind.chances[rest] as number, anyOf[rest] as number];
  for (let reading = 0; reading < share.length; reading += 1)
    logs[reading] = (logs[reading] as number) - within * ((share[reading] as number) * ofBlind + (any[reading] as number) * ofAny);
};

/** Adds to Σ q and Σ q·log q what each target's own parts make of the background's. */
const addOwn = (
  { share, shareLogs, any, chances, logs }: Telling,
  facts: TargetRows,
  gives: Runs,
  { blind, any: anyOf }: Background,
  room: Room,
  right: number,
  { rest, within }: Likely,
): void => {
  const { columns } = room;
  const { from, members, shares } = gives;
  columns.turn(facts, from.length - 1, (row) => (from[row + 1] as number) > (from[row] as number));
  const { own } = room;
  for (let column = 0; column < columns.reach; column += 1) {
    const [first, end] = [columns.from[column] as number, columns.from[column + 1] as number];
    let most = 0;
    for (let i = first; i < end; i += 1) {
      const row = columns.rows[i] as number;
      most += (from[row + 1] as number) - (from[row] as number);
    }
    if (room.met.length < most) room.met = new Int32Array(2 * most);
    const { met } = room;
    let reach = 0;
    for (let i = first; i < end; i += 1) {
      const row = columns.rows[i] as number;
      const chance = right * (columns.chances[i] as number);
      for (let k = from[row] as number, last = from[row + 1] as number; k < last; k += 1) {
        const reading = members[k] as number;
        const before = own[reading] as number;
        if (before === 0) met[reach++] = reading;
        own[reading] = before + chance * (shares[k] as number);
      }
    }
    const target = columns.targets[column] as number;
    const ofBlind = blind.chances[target] as number;
    const blindLog = blind.logs[target] as number;
    const ofAny = anyOf[target] as number;
    const less = target === rest ? within : 0;
    for (let i = 0; i < reach; i += 1) {
      const reading = met[i] as number;
      const often = share[reading] as number;
      const mine = own[reading] as number;
      own[reading] = 0;
      if (often <= 0) continue;
      const apart = often * ofBlind + ofAny * (any[reading] as number);
      // A row may take away what any part has; no more, but for rounding.
      const both = apart + mine;
      chances[reading] = (chances[reading] as number) + mine;
      const apartLog = ofAny === 0 ? (shareLogs[reading] as number) + blindLog : logOf(apart);
      logs[reading] = (logs[reading] as number) + (both > 0 ? both * logOf(both) : 0) - apart * apartLog - less * mine;
    }
  }
};
