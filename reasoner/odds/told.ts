import { keptFor } from '../plain/kept-for.ts';
import type { Background } from './background.ts';
import type { Likely } from './likely.ts';
import { logOf } from './log-of.ts';
import type { Runs } from './looks.ts';
import type { Posterior } from './posterior.ts';
import type { Readings } from './readings.ts';
import { type Room, roomOfReadings } from './room.ts';
import type { Spread } from './spread.ts';
import type { TargetRows } from './target-sums.ts';

/** What the reading of one feature is expected to tell. */
export interface Told {
  /** Expected drop of entropy, bits: H(name) − Σ chance(reading)·H(name | reading) (Shannon 1948; as a choice of tests: Quinlan, "Induction of decision trees", Machine Learning 1 (1986)). */
  readonly drop: number;
  /** By reading: how likely it is, and what it leaves uncertain, bits. */
  readonly chances: Float64Array;
  readonly bits: Float64Array;
}

/** What is read of one feature: rows of targets by run of parts, what each run gives, and what all parts alike give. */
export interface Look {
  readonly readings: Readings;
  readonly facts: TargetRows;
  readonly gives: Runs;
  readonly spread: Spread;
}

/**
 * −Σ q·log q over targets and readings has q = share·blind + any·times + own: all readings share one background, scaled, and the part without own entries is the background's. Then target after target has its own added,
 * each with the few readings its parts can give; parts with the same fact are one row.
 */
export const told = (
  { bits: before, assumptions: { slip }, likely }: Pick<Posterior, 'bits' | 'assumptions' | 'likely'>,
  look: Look,
  background: Background,
  room: Room,
): Told => {
  const { blind: share } = look.readings;
  const shareLogs = logsOf(share);
  const { often } = look.spread;
  const count = share.length;
  const { blind, anySum } = background;
  const [any, logs] = roomOfReadings(room, count).readings;
  const chances = new Float64Array(count);
  for (let reading = 0; reading < count; reading += 1) {
    const blindly = share[reading] as number;
    any[reading] = (1 - slip) * (often[reading] as number);
    logs[reading] = 0;
    // Between cuts that rounding has made one nothing is ever read.
    if (blindly <= 0) continue;
    const sum = blindly * blind.sum + (any[reading] as number) * anySum;
    chances[reading] = sum;
    logs[reading] = sum * (shareLogs[reading] as number) + blindly * background.entropic((any[reading] as number) / blindly);
  }
  const telling = { share, shareLogs, any, chances, logs };
  if (likely.rest >= 0) leaveApart(telling, background, likely);
  addOwn(telling, look, background, room, 1 - slip, likely);
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

/** Of each share its logarithm; of none, nothing. */
const logsOf = keptFor((shares: Float64Array) => shares.map((share) => (share > 0 ? logOf(share) : 0)));

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
  { facts, gives: { from, members, shares } }: Look,
  { blind, any: anyOf }: Background,
  room: Room,
  right: number,
  { rest, within }: Likely,
): void => {
  const { columns } = room;
  columns.turn(facts, (row) => (from[row + 1] as number) > (from[row] as number));
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
