import type { Finding, ObservationId, Verdict } from '../../reasoner/index.ts';
import { leadTo } from './leadTo.ts';
import { TruthMark } from './TruthMark.tsx';

const about: Record<Finding['kind'], string> = {
  'told claim': 'Told',
  mark: 'Mark',
  plate: 'Plate',
  remark: 'Work, condition',
  'unlisted part': 'Unlisted part',
};

const restsOn = (finding: Finding): readonly ObservationId[] => {
  switch (finding.kind) {
    case 'told claim':
    case 'mark':
    case 'remark':
      return [finding.observation];
    case 'plate':
      return finding.observations;
    case 'unlisted part':
      return [];
  }
};

/** What is to be said beside the names: told claims tested, marks, the plate, parts the atlas does not list. */
export function Findings({ verdict }: { readonly verdict: Verdict }) {
  if (verdict.findings.length === 0) return null;
  return (
    <section className="block" aria-labelledby="verdict-findings-title">
      <h2 id="verdict-findings-title" className="head">
        Found beside it
      </h2>
      <ul className="findings">
        {verdict.findings.map((finding, index) => (
          <li key={`${finding.kind}-${restsOn(finding).join()}-${finding.sentence}`} id={`finding-${index}`} tabIndex={-1}>
            <span className="finding-kind">{about[finding.kind]}</span>
            <span>
              {finding.sentence} {finding.kind === 'told claim' && <TruthMark truth={finding.truth} />}
              {restsOn(finding).map((id) => (
                <button key={id} type="button" className="button plain no-print small" onClick={() => leadTo(id)}>
                  entry<span className="unseen"> {id}</span>
                </button>
              ))}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
