import { keptFor } from '../plain/kept-for.ts';
import { Columns } from './columns.ts';
import type { OddsGround } from './ground.ts';
import { AddedUp, TargetSums } from './target-sums.ts';

/** Room to work in, used for one feature, and one sheet, after the other. */
export interface Room {
  readonly addedUp: AddedUp;
  readonly columns: Columns;
  /** By reading, of one feature; and sums of one target, nothing in between. */
  readings: readonly [Float64Array, Float64Array];
  own: Float64Array;
  /** The readings one target can give, some of them perhaps twice. */
  met: Int32Array;
}

export const roomFor = keptFor(({ targets }: OddsGround): Room => {
  const width = targets.all.length;
  return {
    addedUp: new AddedUp(new TargetSums(width)),
    columns: new Columns(width),
    readings: [new Float64Array(0), new Float64Array(0)],
    own: new Float64Array(0),
    met: new Int32Array(0),
  };
});

/** Makes room for so many readings. */
export const roomOfReadings = (room: Room, count: number): Room => {
  if (room.own.length < count) {
    const column = () => new Float64Array(2 * count);
    room.readings = [column(), column()];
    room.own = column();
  }
  return room;
};
