import type { AtlasPlace } from '../route/route.ts';

export function AtlasScreen({ place }: { readonly place: AtlasPlace | null }) {
  return <main>{place?.kind}</main>;
}
