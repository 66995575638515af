import { sayShare } from './oddsWords.ts';

/** A chance as a share. */
export function Chance({ chance }: { readonly chance: number }) {
  return <span className="chance-share">{sayShare(chance)}</span>;
}

/** A chance drawn as a length; its figure stands beside it in words. */
export function ChanceBar({ chance }: { readonly chance: number }) {
  return (
    <svg className="chance-bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
      <rect className="chance-ground" width="100" height="6" />
      <rect className="chance-length" width={Math.max(0.6, chance * 100)} height="6" />
    </svg>
  );
}
