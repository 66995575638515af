import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Finding, ObservationId, Sheet } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { leadTo } from './leadTo.ts';
import { TruthMark } from './TruthMark.tsx';

const about: Record<Finding['kind'], string> = {
  'told claim': 'Told',
  'not confirmed': 'Told',
  mark: 'Mark',
  plate: 'Plate',
  remark: 'Work, condition',
  machined: 'Machined',
  'unlisted part': 'Unlisted part',
};

const restsOn = (finding: Finding): readonly ObservationId[] => {
  switch (finding.kind) {
    case 'told claim':
    case 'mark':
    case 'remark':
      return [finding.observation];
    case 'plate':
    case 'machined':
    case 'not confirmed':
      return finding.observations;
    case 'unlisted part':
      return [];
  }
};

/** What is to be said beside the names: told claims tested, marks, the plate, parts the atlas does not list. */
export function Findings({ verdict, sheet }: { readonly verdict: VerdictAtOnce; readonly sheet: Sheet }) {
  const words = useWords();
  const entryName = (id: ObservationId) => {
    const observation = sheet.observations.find((one) => one.id === id);
    return observation === undefined ? id : `${words.slotName(observation.slot)}, ${words.featureName(observation.feature)}`;
  };
  if (verdict.findings.length === 0) return null;
  return (
    <section className="block" aria-labelledby="verdict-findings-title">
      <h2 id="verdict-findings-title" className="head">
        Also found
      </h2>
      <ul className="findings">
        {verdict.findings.map((finding, index) => (
          <li key={`${finding.kind}-${restsOn(finding).join()}-${finding.sentence}`} id={`finding-${index}`} tabIndex={-1}>
            <span className="finding-kind">{about[finding.kind]}</span>
            <span>
              <TermsText text={finding.sentence} /> {finding.kind === 'told claim' && <TruthMark truth={finding.truth} />}
              {restsOn(finding).map((id) => (
                <button
                  key={id}
                  type="button"
                  className="button plain no-print small"
                  aria-label={`entry: ${entryName(id)}`}
                  onClick={() => leadTo(id)}
                >
                  entry
                </button>
              ))}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
