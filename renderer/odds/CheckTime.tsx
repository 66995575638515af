import type { Check } from '../../reasoner/index.ts';
import { list } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayMinutes } from './oddsWords.ts';

/** How long a check takes, and what strip-down it still needs: `1 min` or `2 min, after 14 min of strip-down (3 min of it laid to this check)`. */
export function CheckTime({ check }: { readonly check: Check }) {
  const words = useWords();
  if (check.openingMinutes <= 0) return <span className="check-time">{sayMinutes(check.minutes)}</span>;
  const stages = list(
    words.vocabulary.stages.filter(({ id, minutes }) => minutes > 0 && check.opening.includes(id)).map(({ name }) => name),
  );
  return (
    <span className="check-time">
      {sayMinutes(check.minutes)}, after {sayMinutes(check.openingMinutes)} of strip-down{' '}
      <span className="soft">
        ({stages}; {sayMinutes(check.openingShare)} of it laid to this check)
      </span>
    </span>
  );
}
