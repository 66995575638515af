import type { Vocabulary } from '../../db/answers.ts';
import { hrefOf } from '../route/route.ts';

/** Says in the bar that what is judged by is made up, all of it or in part, and leads to where it can be taken out. */
export function InventedMark({ packs }: { readonly packs: Vocabulary['packs'] }) {
  const invented = packs.filter((pack) => pack.invented);
  if (invented.length === 0) return null;
  return (
    <a
      className="invented-mark"
      href={hrefOf({ screen: 'packs' })}
      title={invented.map((pack) => `${pack.title}, ${pack.edition}`).join('\n')}
    >
      {invented.some((pack) => pack.parts) ? 'invented data' : 'invented figures'}
    </a>
  );
}
