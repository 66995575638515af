import { useBench } from '../bench/BenchContext.ts';
import { hrefOf } from '../route/route.ts';

/** From the bench to the case file of the sheet on it; nothing while the sheet was never saved. */
export function CaseLink() {
  const { unit } = useBench();
  if (unit.kept === null) return null;
  return (
    <a className="button plain no-print" href={hrefOf({ screen: 'case', sheet: unit.kept.sheet.id })}>
      Case file
    </a>
  );
}
