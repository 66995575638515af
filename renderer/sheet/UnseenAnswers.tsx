import type { Unseen } from '../../reasoner/index.ts';

/** Every reason there is, once; a new one does not compile until it is here. */
const reasons = Object.keys({
  'could not see': true,
  'may not be opened': true,
  'no instrument': true,
} satisfies Record<Unseen['why'], true>) as readonly Unseen['why'][];

/** The answer when there is none: why it could not be told. It goes on the record, is never evidence, and the check is not asked for again. */
export function UnseenAnswers({ why, onUnseen }: { readonly why: Unseen['why'] | null; onUnseen(why: Unseen['why']): void }) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset inside the one form of the entry would bring its own frame and legend.
    <div className="unseen-answers" role="group" aria-label="No answer, because">
      <span className="soft">No answer:</span>
      {reasons.map((reason) => (
        <button key={reason} type="button" className="button plain" aria-pressed={why === reason} onClick={() => onUnseen(reason)}>
          {reason}
        </button>
      ))}
    </div>
  );
}
