import { distance } from '../../reasoner/plain/distance.ts';
import { addresses } from '../route/route.ts';

/** So many letters may be wrong. */
const most = 2;

/** What stands first in the address of the screen that may have been meant; null where nothing is near. */
export const addressMeant = (address: string): string | null => {
  const first = address.split('/')[0]?.toLowerCase() ?? '';
  const near = addresses.map((one) => ({ one, far: distance(first, one) })).sort((a, b) => a.far - b.far)[0];
  return near !== undefined && near.far <= most ? near.one : null;
};
