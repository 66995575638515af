import type { Check, Feature, Unseen } from '../../reasoner/index.ts';

interface Props {
  readonly check: Check;
  readonly feature: Feature | undefined;
  /** The order of checks is on its way: the one shown may be answered already. */
  readonly waiting: boolean;
  /** Whether the keys of the next check act on this one. */
  readonly shortcut?: boolean;
  onRefuse(why: Unseen['why']): void;
}

const means: Record<Unseen['why'], string> = {
  'could not see': 'This check is not asked for again',
  'may not be opened': 'Nothing that needs this strip-down is asked for',
  'no instrument': 'This check is not asked for again',
};

/** The ways to refuse a check. It goes on the sheet as no answer, is never evidence, and the order of the others follows. */
export function Refusals({ check, feature, waiting, shortcut = false, onRefuse }: Props) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would bring a frame and legend to three buttons in a row.
    <div className="refusals" role="group" aria-label="No answer, because">
      {refusalsOf(check, feature).map((why) => (
        <button
          key={why}
          type="button"
          className="button"
          title={means[why]}
          aria-disabled={waiting}
          aria-keyshortcuts={shortcut && why === 'could not see' ? 'Control+Shift+Enter' : undefined}
          onClick={() => {
            if (!waiting) onRefuse(why);
          }}
        >
          {why}
        </button>
      ))}
    </div>
  );
}

/** The reasons a suggested check can be refused for, those that make sense for it: what needs no opening is not kept from by a seal. */
const refusalsOf = (check: Check, feature: Feature | undefined): readonly Unseen['why'][] => [
  'could not see',
  ...(check.openingMinutes > 0 ? (['may not be opened'] as const) : []),
  ...(feature?.kind === 'measure' || feature?.instrument !== undefined ? (['no instrument'] as const) : []),
];
