import { useState } from 'react';
import type { PartId } from '../../reasoner/index.ts';
import { hrefOf } from '../route/route.ts';
import { usePartName } from './partName.ts';

const step = 12;

/** Parts by name, each leading to its page in the atlas; names are asked for only when shown. */
export function PartNames({ parts }: { readonly parts: readonly PartId[] }) {
  const [limit, setLimit] = useState(step);
  const shown = parts.slice(0, limit);
  return (
    <span className="part-names">
      {shown.map((part, index) => (
        <span key={part}>
          {index > 0 && ', '}
          <PartName part={part} />
        </span>
      ))}
      {parts.length > limit && (
        <button type="button" className="button plain no-print" onClick={() => setLimit(limit + 5 * step)}>
          {parts.length - limit} more
        </button>
      )}
      {parts.length === 0 && <span className="soft">none</span>}
    </span>
  );
}

export function PartName({ part }: { readonly part: PartId }) {
  return <a href={hrefOf({ screen: 'atlas', page: { kind: 'part', id: part } })}>{usePartName(part)}</a>;
}
