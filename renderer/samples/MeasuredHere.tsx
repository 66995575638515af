import './samples.css';
import '../edit/edit.css';
import { useState } from 'react';
import type { KeptSample, PartPage } from '../../db/answers.ts';
import type { CallResult, Trouble } from '../../electron/bridge/contract.ts';
import type { FeatureId, SheetId } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { useLengthUnit } from '../look/useLengthUnit.ts';
import { sayFact } from '../values/sayFact.ts';
import { saySure, sayValue } from '../values/sayings.ts';
import { sayMany } from '../values/sayMany.ts';
import { sayWhen } from '../values/sayWhen.ts';
import { CaseNumbers } from './CaseNumbers.tsx';
import { sayBehind, sayLimits, sayMean } from './saySamples.ts';
import { WordDialog } from './WordDialog.tsx';

type Samples = CallResult<'samples.of'>;
type OfFeature = Samples['features'][number];

/** What was measured of a part in this shop's cases, beside what the atlas says and never in its place; nothing where there is none. */
export function MeasuredHere({ page }: { readonly page: PartPage }) {
  const words = useWords();
  const [turn, setTurn] = useState(0);
  const [taking, setTaking] = useState<FeatureId | null>(null);
  const part = page.part.id as KeptSample['part'];
  const asked = useAsk('samples.of', { part }, 0, turn);
  const answer = latest(asked);
  if (asked.state === 'trouble') return <TroubleNote lead="What was measured here could not be read." trouble={asked.trouble} />;
  if (answer === null || (answer.samples.length === 0 && answer.cases.length === 0)) return null;
  const cases = new Set(answer.samples.filter(({ out }) => out === null).map(({ sheet }) => sheet)).size;
  const taken = answer.features.find(({ feature }) => feature === taking);
  return (
    <>
      <h3 className="head">
        Measured here <span className="head-note">{cases === 0 ? 'nothing that stands' : `in ${sayMany(cases, 'case')}`}</span>
      </h3>
      {answer.features.length > 0 && (
        <table className="page-table">
          <thead>
            <tr>
              <th scope="col">Feature</th>
              <th scope="col">The atlas says</th>
              <th scope="col">Measured here</th>
              <th scope="col">Limits</th>
              <th scope="col">
                <span className="unseen">Decide</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {answer.features.map((one) => (
              <FeatureRow
                key={`${one.feature} ${one.kind}`}
                one={one}
                page={page}
                samples={answer.samples}
                onTake={() => setTaking(one.feature)}
              />
            ))}
          </tbody>
        </table>
      )}
      {answer.features.some((one) => one.kind === 'measure') && (
        <p className="small soft">
          Mean ± spread of the parts measured. Limits: 95 in 100 such parts lie within them, with 95 per cent confidence, told from five
          parts on; what stands apart is named from seven on, and counted in until it is taken out.
        </p>
      )}
      {answer.cases.length > 0 && (
        <p className="small">
          Cases of this part:{' '}
          {answer.cases.map((one, index) => (
            <span key={one.number}>
              {index > 0 && ', '}
              <CaseNumbers cases={[one]} />
              {one.photos > 0 && ` (${sayMany(one.photos, 'photograph')} of it)`}
            </span>
          ))}
        </p>
      )}
      {answer.samples.length > 0 && <EverySample samples={answer.samples} onChanged={() => setTurn(turn + 1)} />}
      {taking !== null && taken !== undefined && (
        <WordDialog part={part} feature={taking} samples={taken} onMade={() => setTaking(null)} onLeave={() => setTaking(null)} />
      )}
      <span className="unseen" role="status">
        {asked.state === 'waiting'
          ? ''
          : `${words.slotName(page.slot)}: ${sayMany(answer.samples.filter(({ out }) => out === null).length, 'sample')}`}
      </span>
    </>
  );
}

function FeatureRow(props: { readonly one: OfFeature; readonly page: PartPage; readonly samples: readonly KeptSample[]; onTake(): void }) {
  const { one, page, samples } = props;
  const words = useWords();
  const [unit] = useLengthUnit();
  const feature = words.feature(one.feature);
  const said = page.facts.find((fact) => fact.feature === one.feature)?.fact;
  const numbers = (sheets: readonly SheetId[]) =>
    sheets.map((sheet) => ({ sheet, number: samples.find((sample) => sample.sheet === sheet)?.number ?? '' }));
  return (
    <tr>
      <th scope="row">{words.featureName(one.feature)}</th>
      <td className={said === undefined || said.kind === 'not known' ? 'soft' : undefined}>
        {said === undefined ? 'nothing' : sayFact(feature, said, unit)}
        {one.pack !== null && (
          <span className="small soft samples-behind">the shop’s word; the pack says {sayFact(feature, one.pack, unit)}</span>
        )}
      </td>
      <td>
        {one.kind === 'measure' ? (
          <>
            {sayMean(one.statistics, feature, unit)}{' '}
            <span className="small soft samples-behind">{sayBehind(one.statistics, feature, unit)}</span>
            {(one.statistics.outliers ?? []).map((at) => {
              const specimen = one.specimens[at];
              if (specimen === undefined) return null;
              return (
                <span key={specimen.sheet} className="small samples-behind samples-apart">
                  Stands apart: {sayValue(feature, { kind: 'measure', value: specimen.value }, unit)}, case{' '}
                  <CaseNumbers cases={numbers([specimen.sheet])} />
                </span>
              );
            })}
          </>
        ) : (
          one.tallies.map((tally, index) => (
            <span key={JSON.stringify(tally.value)} className="samples-behind">
              {sayValue(feature, tally.value, unit)}{' '}
              <span className="small soft">
                in {sayMany(tally.sheets.length, 'case')}
                {index > 0 && (
                  <>
                    : <CaseNumbers cases={numbers(tally.sheets)} />
                  </>
                )}
              </span>
            </span>
          ))
        )}
      </td>
      <td className={one.kind === 'measure' && one.statistics.limits !== null ? undefined : 'soft small'}>
        {one.kind === 'measure' ? sayLimits(one.statistics, feature, unit) : ''}
      </td>
      <td className="samples-decide">
        {one.word.fact === null ? (
          <span className="small soft">they disagree</span>
        ) : sameValue(one.word.fact, said) ? (
          <span className="small soft">as the atlas says</span>
        ) : (
          <button
            type="button"
            className="button"
            aria-label={`Take as the shop’s word: ${words.featureName(one.feature)}`}
            onClick={props.onTake}
          >
            Take as the shop’s word
          </button>
        )}
      </td>
    </tr>
  );
}

function EverySample({ samples, onChanged }: { readonly samples: readonly KeptSample[]; onChanged(): void }) {
  const words = useWords();
  const [unit] = useLengthUnit();
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const takeOut = async (sample: KeptSample['id']): Promise<void> => {
    const reply = await desk.ask('samples.takeOut', { sample, who: whoLooks() });
    setTrouble(reply.ok ? null : reply.trouble);
    onChanged();
  };
  return (
    <details className="samples-all">
      <summary>Every sample</summary>
      {trouble !== null && <TroubleNote lead="It was not taken out." trouble={trouble} />}
      <ul>
        {samples.map((one) => {
          const feature = words.feature(one.feature);
          const sure = one.u === null ? '' : ` ${saySure(feature, { kind: 'measured', u: one.u }, unit)}`;
          const said = `${words.featureName(one.feature)} ${sayValue(feature, one.value, unit)}${sure}`;
          return (
            <li key={one.id}>
              {one.out === null ? said : <del>{said}</del>}{' '}
              <span className="small soft">
                {one.how !== '' && `${one.how}, `}case <CaseNumbers cases={[one]} />, kept {sayWhen(one.keptAt)}
                {one.who !== '' && ` by ${one.who}`}
                {one.out !== null && `; taken out ${sayWhen(one.out.at)}${one.out.who === '' ? '' : ` by ${one.out.who}`}`}
              </span>{' '}
              {one.out === null && (
                <button
                  type="button"
                  className="button plain no-print"
                  aria-label={`Take out: ${said}, case ${one.number}`}
                  onClick={() => void takeOut(one.id)}
                >
                  Take out
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </details>
  );
}
