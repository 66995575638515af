import { useBench } from '../bench/BenchContext.ts';
import { hrefOf } from '../route/route.ts';

/** The number of the case on the bench, leading to its file; nothing while the sheet was never saved. */
export function CaseLink() {
  const { unit } = useBench();
  if (unit.kept === null) return null;
  const { number } = unit.kept;
  return (
    <a className="case-link no-print" href={hrefOf({ screen: 'case', sheet: unit.kept.sheet.id })} title="The file of this case">
      {number === null ? 'Case file' : `Case ${number}`}
    </a>
  );
}
