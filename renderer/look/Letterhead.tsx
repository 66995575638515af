import './letterhead.css';
import { useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';

/** The head of the shop's paper; nothing where the shop has none. `onPaper`: it is seen when the page is printed, and not before. */
export function Letterhead({ onPaper = false }: { readonly onPaper?: boolean }) {
  const { name, lines, logo } = useShop().settings.letterhead;
  const picture = latest(useAsk('settings.logo', logo === null ? null : {}, 0, logo?.file ?? null));
  if (name === '' && logo === null) return null;
  return (
    <div className={onPaper ? 'letterhead print-only' : 'letterhead'}>
      {logo !== null && picture !== null ? (
        <img src={`data:${picture.type};base64,${picture.data}`} alt={name === '' ? 'The shop’s sign' : `The sign of ${name}`} />
      ) : (
        <span />
      )}
      <p>
        <b>{name}</b>
        {lines.map((line, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines of an address have no other identity, and nothing in them keeps a state.
          <span key={index}>{line}</span>
        ))}
      </p>
    </div>
  );
}
