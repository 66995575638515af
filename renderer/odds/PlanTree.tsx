import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import type { CheckPlan, PlanEnd } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayAlike, sayMinutes, sayShare } from './oddsWords.ts';
import { type PlanLine, parentOf, planTree, unfolded } from './planTree.ts';

/**
 * The course of checks as a tree after the WAI-ARIA pattern: up and down walk the lines in sight, right unfolds and goes in, left folds and goes
 * out, Home and End lead to the first and last. On paper everything is unfolded.
 */
export function PlanTree({ plan }: { readonly plan: CheckPlan }) {
  const tree = useMemo(() => planTree(plan), [plan]);
  const [folded, setFolded] = useState<ReadonlySet<string>>(new Set());
  const [at, setAt] = useState(tree.id);
  const list = useRef<HTMLDivElement>(null);
  const inSight = unfolded(tree, folded);
  // A line that went with the plan before this one leaves the first as the stop.
  const stop = inSight.some(({ id }) => id === at) ? at : tree.id;
  const goTo = (id: string | null | undefined) => {
    if (id === null || id === undefined) return;
    setAt(id);
    list.current?.querySelector<HTMLElement>(`[data-line="${CSS.escape(id)}"]`)?.focus();
  };
  const fold = (line: PlanLine, shut: boolean) => {
    const next = new Set(folded);
    if (shut) next.add(line.id);
    else next.delete(line.id);
    setFolded(next);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const place = inSight.findIndex(({ id }) => id === stop);
    const line = inSight[place] as PlanLine;
    const shut = folded.has(line.id);
    switch (event.key) {
      case 'ArrowDown':
        goTo(inSight[place + 1]?.id);
        break;
      case 'ArrowUp':
        goTo(inSight[place - 1]?.id);
        break;
      case 'ArrowRight':
        if (shut) fold(line, false);
        else goTo(line.lines[0]?.id);
        break;
      case 'ArrowLeft':
        if (!shut && line.lines.length > 0) fold(line, true);
        else goTo(parentOf(line.id));
        break;
      case 'Home':
        goTo(tree.id);
        break;
      case 'End':
        goTo(inSight.at(-1)?.id);
        break;
      case 'Enter':
      case ' ':
        if (line.lines.length > 0) fold(line, !shut);
        break;
      default:
        return;
    }
    event.preventDefault();
  };
  return (
    <div ref={list} className="plan-tree" role="tree" aria-label="The whole plan" onKeyDown={onKeyDown}>
      <Line line={tree} level={1} folded={folded} stop={stop} onFold={fold} onStop={setAt} />
    </div>
  );
}

interface LineProps {
  readonly line: PlanLine;
  readonly level: number;
  readonly folded: ReadonlySet<string>;
  readonly stop: string;
  onFold(line: PlanLine, shut: boolean): void;
  onStop(id: string): void;
}

function Line({ line, level, folded, stop, onFold, onStop }: LineProps) {
  const shut = folded.has(line.id);
  const parent = line.lines.length > 0;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the tree takes the keys, as its pattern asks.
    <div
      role="treeitem"
      aria-level={level}
      aria-expanded={parent ? !shut : undefined}
      aria-selected={stop === line.id}
      tabIndex={stop === line.id ? 0 : -1}
      data-line={line.id}
      className={shut ? 'plan-line is-folded' : 'plan-line'}
      onFocus={(event) => {
        if (event.target === event.currentTarget) onStop(line.id);
      }}
      onClick={(event) => {
        event.stopPropagation();
        onStop(line.id);
        if (parent) onFold(line, !shut);
      }}
    >
      <span className="plan-text">
        {line.reading !== null && (
          <>
            <b>{line.reading.text}</b> <span className="chance-share">{sayShare(line.reading.chance)}</span>
            <span className="plan-then" aria-hidden="true">
              {' '}
              →{' '}
            </span>
            <span className="unseen">, then </span>
          </>
        )}
        <Then then={line.then} />
      </span>
      {parent && (
        // biome-ignore lint/a11y/useSemanticElements: a group of a tree, as its pattern asks.
        <div role="group">
          {line.lines.map((each) => (
            <Line key={each.id} line={each} level={level + 1} folded={folded} stop={stop} onFold={onFold} onStop={onStop} />
          ))}
        </div>
      )}
    </div>
  );
}

function Then({ then }: { readonly then: PlanLine['then'] }) {
  const words = useWords();
  if (then.kind === 'end') return <End end={then} />;
  const { check, expectedMinutes, rest, branches } = then;
  return (
    <>
      {check.again.length > 0 && 'read again: '}
      {words.featureName(check.feature)} of the {words.slotName(check.slot)}{' '}
      <span className="soft small">
        {sayMinutes(check.minutes + check.openingMinutes)}
        {expectedMinutes > check.minutes + check.openingMinutes + 0.05 && `, about ${sayMinutes(expectedMinutes)} to the end`}
        {branches.length === 0
          ? '; no reading is likely enough to follow further'
          : rest > 0.005
            ? `; readings not followed ${sayShare(rest)}`
            : ''}
      </span>
    </>
  );
}

const because: Record<PlanEnd['because'], string> = {
  settled: 'settled',
  'nothing more tells': 'no further check tells them apart',
  'far enough': 'the plan ends here',
};

function End({ end }: { readonly end: PlanEnd }) {
  const alike = end.names.slice(0, end.alike);
  const [first] = alike;
  const others = end.names.slice(alike.length);
  return (
    <span className={`plan-end is-${end.because.replaceAll(' ', '-')}`}>
      <span className="soft">{because[end.because]}:</span>{' '}
      {first === undefined
        ? 'no name'
        : sayAlike(
            end.names.map(({ text }) => text),
            end.alike,
          )}{' '}
      {end.alike > 1 && <span className="soft">each</span>}{' '}
      {first !== undefined && <span className="chance-share">{sayShare(first.chance)}</span>}
      {end.because !== 'settled' && others.length > 0 && (
        <span className="soft small">, or {others.map(({ text, chance }) => `${text} ${sayShare(chance)}`).join(', or ')}</span>
      )}
    </span>
  );
}
