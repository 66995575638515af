import type { Replacements } from '../../reasoner/index.ts';
import { PartNames } from '../bridge/PartNames.tsx';

/** S1: the parts that may go into a slot, those that drop in first; of the others what is to be done before they go on. */
export function Replaced({ choice }: { readonly choice: Replacements }) {
  if (choice.parts.length === 0) return <>no listed part is known to do it</>;
  const needing = new Set(choice.needs.flatMap(({ parts }) => parts));
  const dropsIn = choice.parts.filter((part) => !needing.has(part));
  return (
    <>
      {dropsIn.length > 0 && <PartNames parts={dropsIn} />}
      {choice.needs.map(({ parts, sentences }) => (
        <span key={sentences.join()} className="swap-need">
          <PartNames parts={parts} />: {sentences.join(' ')}
        </span>
      ))}
    </>
  );
}
