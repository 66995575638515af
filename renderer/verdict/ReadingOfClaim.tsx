import type { Reading } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { hrefOf } from '../route/route.ts';
import { TruthMark } from './TruthMark.tsx';

interface Props {
  readonly reading: Reading;
  /** The claimed name is read as several makers’ (A4): then it says whose. */
  readonly shared: boolean;
}

/** N6: the claimed name read by its maker's grammar, token by token, with what each promises. */
export function ReadingOfClaim({ reading, shared }: Props) {
  const words = useWords();
  if (reading.tokens.length === 0 && reading.faults.length === 0 && reading.nearest.length === 0) return null;
  const strange = reading.verdict !== 'a model of the atlas';
  return (
    <details className="reading" open={strange}>
      <summary>
        How the name reads{shared && reading.maker !== null && ` as ${words.makerName(reading.maker)}’s`}: <b>{reading.verdict}</b>
      </summary>
      {reading.faults.map((fault) => (
        <p key={fault}>{fault}</p>
      ))}
      {reading.tokens.length > 0 && (
        <ul className="tokens">
          {reading.tokens.map((token) => (
            <li key={token.token}>
              <b className="token">{token.text}</b>
              {token.promises.length === 0 && <span className="soft"> promises nothing of the parts</span>}
              {token.promises.map((promise) => (
                <span key={promise.feature}>
                  {' '}
                  {promise.sentence} <TruthMark truth={promise.truth} />
                </span>
              ))}
            </li>
          ))}
        </ul>
      )}
      {reading.nearest.length > 0 && strange && (
        <p>
          Names that exist, nearest first:{' '}
          {reading.nearest.map((model, index) => (
            <span key={model}>
              {index > 0 && ', '}
              <a href={hrefOf({ screen: 'atlas', page: { kind: 'model', id: model } })}>{words.modelName(model)}</a>
            </span>
          ))}
        </p>
      )}
    </details>
  );
}
