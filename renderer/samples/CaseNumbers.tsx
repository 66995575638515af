import type { SheetId } from '../../reasoner/index.ts';
import { hrefOf } from '../route/route.ts';

/** Numbers of cases, each leading to its file where that is here. */
export function CaseNumbers({ cases }: { readonly cases: readonly { readonly number: string; readonly sheet: SheetId | null }[] }) {
  return cases.map(({ number, sheet }, index) => (
    <span key={number}>
      {index > 0 && ', '}
      {sheet === null ? number : <a href={hrefOf({ screen: 'case', sheet })}>{number}</a>}
    </span>
  ));
}
