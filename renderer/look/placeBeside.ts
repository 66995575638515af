import type { Trouble } from '../../electron/bridge/contract.ts';

/** The place of a trouble where its sentence does not name it already, whole or by its id, as in `sheet s-1`; else null. */
export const placeBeside = ({ place, sentence }: Trouble): string | null => {
  if (place === null || sentence.includes(place)) return null;
  const id = /^\w+[ /](\S+)$/.exec(place)?.[1];
  return id !== undefined && sentence.includes(id) ? null : place;
};
