import type { KeptStockLine } from '../../db/answers.ts';
import type { BuildsCell, BuildsRow, ComparedWork, PartId, Whence } from '../../reasoner/index.ts';
import { inStockPhrase } from '../../reasoner/plain/stock-condition.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { useShop } from '../bridge/ShopContext.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { useLengthUnit } from '../look/useLengthUnit.ts';
import { sayWhole } from '../values/figures.ts';
import { saySpan, unitSign } from '../values/lengths.ts';
import { sayFact } from '../values/sayFact.ts';
import { sayMany } from '../values/sayMany.ts';
import { pointNames, sayCompared, sayFinished, sayHours, sayMoney, sayShare } from './sayBuild.ts';

/** What of a part lies in stock, in whatever condition. */
export type LyingOf = (part: PartId) => readonly KeptStockLine[];

/** One thing of one build, as it stands beside the others. What is not known says so. */
export function BuildsCellText({ row, cell, lying }: { readonly row: BuildsRow; readonly cell: BuildsCell; readonly lying: LyingOf }) {
  const words = useWords();
  const [unit] = useLengthUnit();
  const { money } = useShop().settings;
  switch (cell.kind) {
    case 'nothing':
      return <span className="soft">none</span>;
    case 'open':
      return <span className="open-cell">{cell.why}</span>;
    case 'texts':
      return <b>{cell.texts.join(' or ')}</b>;
    case 'part':
      return <PartCell cell={cell} lines={lying(cell.part)} />;
    case 'fit':
      return <FitCell cell={cell} />;
    case 'fact':
      return sayFact(row.feature === null ? undefined : words.feature(row.feature), cell.fact, unit);
    case 'hours':
      return atLeast(cell, sayHours(cell.amount));
    case 'count':
      return atLeast(cell, sayWhole(cell.amount));
    case 'money':
      return (
        <>
          {atLeast(cell, sayMoney(cell.amount, cell.money, money))}
          {cell.without.length > 0 && <span className="cell-line open-cell">{sayMany(cell.without.length, 'price')} not known</span>}
        </>
      );
  }
}

const atLeast = ({ open, without }: { readonly open: boolean; readonly without: readonly PartId[] }, said: string): string =>
  open || without.length > 0 ? `at least ${said}` : said;

interface PartProps {
  readonly cell: Extract<BuildsCell, { kind: 'part' }>;
  readonly lines: readonly KeptStockLine[];
}

function PartCell({ cell, lines }: PartProps) {
  const { money } = useShop().settings;
  const price = cell.price === null || cell.money === null ? 'price not known' : sayMoney(cell.price, cell.money, money);
  return (
    <>
      {capital(cell.text)}
      {cell.stranger && <span className="tag">not as listed</span>}
      {cell.from !== 'not sold' && <span className="cell-line soft">{whence(cell.from, price, inStockPhrase(lines))}</span>}
    </>
  );
}

const whence = (from: Exclude<Whence, 'not sold'> | null, price: string, lying: string | null): string => {
  switch (from) {
    case 'stock':
      return lying === null ? 'from stock' : `from stock; ${lying}`;
    case 'bought':
      return `${price}; ${lying ?? 'none in stock'}`;
    case null:
      return `${price}; stock not known`;
  }
};

function FitCell({ cell }: { readonly cell: Extract<BuildsCell, { kind: 'fit' }> }) {
  const words = useWords();
  const [unit] = useLengthUnit();
  const { point } = cell;
  const choose = cell.verdict === 'after work' && point !== null;
  return (
    <>
      <FitMark verdict={choose ? 'measure and choose' : cell.verdict} />
      {cell.soFar && <span className="small soft"> so far</span>}
      {cell.works.map((work) => (
        <WorkLine key={`${work.operation} ${work.slot}`} work={work} />
      ))}
      {point !== null && (
        <span className="cell-line">
          {capital(pointNames[point.what])}: {sayCompared(words, point.features)}
          {point.found !== undefined && `, ${saySpan(point.found, unit)} ${unitSign(unit)}`}
          {point.asked !== undefined && `; asked, ${saySpan(point.asked, unit)} ${unitSign(unit)}`}
          {choose && point.share !== undefined && `; ${sayShare(point.share)} of pairs`}
        </span>
      )}
      {cell.missing.length > 0 && (
        <span className="cell-line open-cell">not known: {cell.missing.map((feature) => words.featureName(feature)).join(', ')}</span>
      )}
    </>
  );
}

/** What is done to a part: each size with its limits, and what that takes. */
function WorkLine({ work }: { readonly work: ComparedWork }) {
  const words = useWords();
  const [unit] = useLengthUnit();
  return (
    <span className="cell-line">
      {capital(work.name)} on the {words.slotName(work.slot)}
      {work.sizes.map((size) => (
        <span key={size.feature} className="cell-line">
          {words.featureName(size.feature)} to{' '}
          <b>
            {sayFinished(size, unit)} {unitSign(unit)}
          </b>
          , takes {saySpan(size.removes, unit)} {unitSign(unit)}
        </span>
      ))}
      <span className="cell-line soft">{sayHours(work.hours)}</span>
      {work.missing.length > 0 && (
        <span className="cell-line open-cell">
          measure the {work.missing.map((feature) => words.featureName(feature)).join(' and ')} first
        </span>
      )}
    </span>
  );
}
