import type { PartId } from '../../reasoner/index.ts';
import { usePartName } from './partName.ts';

/** A part's name as plain text, for buttons and table cells that lead nowhere. */
export function PartText({ part }: { readonly part: PartId }) {
  return <>{usePartName(part)}</>;
}
