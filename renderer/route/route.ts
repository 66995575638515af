import { useSyncExternalStore } from 'react';
import type { LearnerId } from '../../db/answers.ts';
import type { FamilyId, MakerId, ModelId, PartId, SheetId, SubjectRef } from '../../reasoner/index.ts';
import { asId } from './asId.ts';
import { editedLists } from './editedLists.ts';
import type { Pick, Picks } from './picks.ts';

/** Where the window is. Kept in the address after the hash, so Back and links work under any host. */
export type Route =
  | { readonly screen: 'unit' }
  | { readonly screen: 'build'; readonly place: BuildPlace }
  | { readonly screen: 'report' }
  | { readonly screen: 'sheets' }
  | { readonly screen: 'listings' }
  | { readonly screen: 'retold' }
  | { readonly screen: 'backups' }
  | { readonly screen: 'settings' }
  | { readonly screen: 'stock' }
  | { readonly screen: 'prices' }
  | { readonly screen: 'packs' }
  | { readonly screen: 'history'; readonly of: { readonly list: string; readonly id: string } | null }
  | { readonly screen: 'table' }
  | { readonly screen: 'drills'; readonly place: DrillsPlace; readonly learner: LearnerId | null }
  | { readonly screen: 'apart'; readonly subjects: readonly SubjectRef[] }
  | { readonly screen: 'case'; readonly sheet: SheetId }
  | { readonly screen: 'glossary'; readonly term: string | null }
  | { readonly screen: 'tree'; readonly picks: Picks }
  | { readonly screen: 'edit'; readonly place: EditPlace }
  | { readonly screen: 'key'; readonly families: readonly FamilyId[] }
  /** The help page, which stands over the screen one was at; `at` is the part of it to open at. */
  | { readonly screen: 'help'; readonly at: string | null }
  | { readonly screen: 'atlas'; readonly page: AtlasPlace | null }
  /** An address that is none of the above; what stands after `#/`, as it was written. */
  | { readonly screen: 'unknown'; readonly address: string };

/** What stands in the window; the help page stands over it. */
export type Screen = Exclude<Route, { readonly screen: 'help' }>;

export const drillsPlaces = ['drill', 'confusions', 'course', 'known', 'questions'] as const;
export type DrillsPlace = (typeof drillsPlaces)[number];

export const buildPlaces = ['bench', 'fill', 'sheet', 'compare', 'start'] as const;
export type BuildPlace = (typeof buildPlaces)[number];

/**
 * Where the atlas is edited: which lists there are, one list, several parts at once, a new entry (like another, where `like` names one), or one entry. The lists are as
 * the atlas calls them.
 */
export type EditPlace =
  | { readonly at: 'lists' }
  | { readonly at: 'list'; readonly list: string }
  | { readonly at: 'new'; readonly list: string; readonly like: string | null }
  | { readonly at: 'entry'; readonly list: string; readonly id: string };

export type AtlasPlace =
  | { readonly kind: 'maker'; readonly id: MakerId }
  | { readonly kind: 'family'; readonly id: FamilyId; readonly beside: FamilyId | null }
  | { readonly kind: 'model'; readonly id: ModelId }
  | { readonly kind: 'part'; readonly id: PartId };

export const hrefOf = (route: Route): string => {
  switch (route.screen) {
    case 'unit':
      return '#/unit';
    case 'build':
      return route.place === 'bench' ? '#/build' : `#/build/${route.place}`;
    case 'report':
      return '#/report';
    case 'sheets':
      return '#/sheets';
    case 'retold':
      return '#/retold';
    case 'listings':
      return '#/listings';
    case 'backups':
      return '#/backups';
    case 'settings':
      return '#/shop';
    case 'stock':
      return '#/stock';
    case 'prices':
      return '#/prices';
    case 'packs':
      return '#/packs';
    case 'history':
      return route.of === null ? '#/history' : `#/history/${encodeURIComponent(route.of.list)}/${encodeURIComponent(route.of.id)}`;
    case 'table':
      return '#/table';
    case 'drills':
      return ['#/drills', route.place, ...(route.learner === null ? [] : [encodeURIComponent(route.learner)])].join('/');
    case 'apart':
      return ['#/apart', ...route.subjects.map(({ kind, id }) => `${kind}/${encodeURIComponent(id)}`)].join('/');
    case 'case':
      return `#/case/${encodeURIComponent(route.sheet)}`;
    case 'glossary':
      return route.term === null ? '#/glossary' : `#/glossary/${encodeURIComponent(route.term)}`;
    case 'tree':
      return ['#/tree', ...route.picks.map(({ kind, id }) => `${kind}/${encodeURIComponent(id)}`)].join('/');
    case 'key':
      return ['#/key', ...route.families.map((id) => `family/${encodeURIComponent(id)}`)].join('/');
    case 'edit':
      return hrefOfEdit(route.place);
    case 'help':
      return route.at === null ? '#/help' : `#/help/${encodeURIComponent(route.at)}`;
    case 'atlas': {
      if (route.page === null) return '#/atlas';
      const beside = route.page.kind === 'family' && route.page.beside !== null ? `/beside/${encodeURIComponent(route.page.beside)}` : '';
      return `#/atlas/${route.page.kind}/${encodeURIComponent(route.page.id)}${beside}`;
    }
    case 'unknown':
      return `#/${route.address}`;
  }
};

/** `#/edit`, `#/edit/changes`, `#/edit/parts`, `#/edit/parts/new?like=…`, `#/edit/parts/…`. No id begins with a sign, so that one that is `new` can be told from a new one. */
const hrefOfEdit = (place: EditPlace): string => {
  switch (place.at) {
    case 'lists':
      return '#/edit';
    case 'list':
      return `#/edit/${place.list}`;
    case 'new':
      return `#/edit/${place.list}/new${place.like === null ? '' : `?like=${encodeURIComponent(place.like)}`}`;
    case 'entry':
      return `#/edit/${place.list}/${place.id === 'new' ? '.new' : encodeURIComponent(place.id)}`;
  }
};

/** Null where the atlas has no such list. */
const editPlaceOf = (list: string | undefined, id: string | undefined): EditPlace | null => {
  if (!list) return { at: 'lists' };
  if (!editedLists.some((one) => one === list)) return null;
  if (!id) return { at: 'list', list };
  const [word, like] = id.split('?like=');
  if (word === 'new') return { at: 'new', list, like: like || null };
  return { at: 'entry', list, id: id === '.new' ? 'new' : id };
};

/** Screens that are one place each. */
const single = ['unit', 'sheets', 'report', 'listings', 'retold', 'backups', 'stock', 'prices', 'packs', 'table'] as const;

/** What stands first in the addresses of the window. */
export const addresses: readonly string[] = [
  ...single,
  ...(['build', 'shop', 'history', 'case', 'glossary', 'help', 'tree', 'drills', 'apart', 'edit', 'key', 'atlas'] as const),
];

/** Without an address one is at the unit on the bench. One that is cut short leads to the opening of its screen; one that is none of ours is said to be none. */
export const routeOf = (hash: string): Route => {
  // What has no stroke is not ours: the host gives its key so, once.
  if (!hash.startsWith('#/') || hash === '#/') return { screen: 'unit' };
  return placeOf(hash) ?? { screen: 'unknown', address: hash.slice(2) };
};

/** Null where the address names no place. */
const placeOf = (hash: string): Route | null => {
  const [screen, kind, id, word, other] = hash.slice(2).split('/').map(decoded);
  const alone = single.find((one) => one === screen);
  if (alone !== undefined) return kind ? null : { screen: alone };
  if (screen === 'history') {
    if (kind && !editedLists.some((one) => one === kind)) return null;
    return { screen, of: kind && id ? { list: kind, id } : null };
  }
  // Its address of before, which somebody may have kept.
  if (screen === 'triage') return { screen: 'listings' };
  if (screen === 'shop') return kind ? null : { screen: 'settings' };
  if (screen === 'case') return kind ? { screen, sheet: asId<SheetId>(kind) } : { screen: 'sheets' };
  if (screen === 'glossary') return { screen, term: kind || null };
  if (screen === 'help') return { screen, at: kind || null };
  if (screen === 'tree') return { screen, picks: picksOf(hash) };
  if (screen === 'build') {
    const place = kind ? buildPlaces.find((one) => one === kind) : 'bench';
    return place === undefined ? null : { screen, place };
  }
  if (screen === 'drills') {
    const place = kind ? drillsPlaces.find((one) => one === kind) : 'drill';
    return place === undefined ? null : { screen, place, learner: id ? asId<LearnerId>(id) : null };
  }
  if (screen === 'apart') return { screen, subjects: subjectsIn(hash) };
  if (screen === 'edit') {
    const place = editPlaceOf(kind, id);
    return place === null ? null : { screen, place };
  }
  if (screen === 'key') return { screen, families: subjectsIn(hash).flatMap((one) => (one.kind === 'family' ? [one.id] : [])) };
  if (screen !== 'atlas') return null;
  const at = atlasKinds.find((one) => one === kind);
  if (kind && at === undefined) return null;
  return { screen, page: at === undefined || !id ? null : atlasPlaceOf(at, id, word === 'beside' && other ? other : null) };
};

const atlasKinds = ['maker', 'family', 'model', 'part'] as const satisfies readonly AtlasPlace['kind'][];

const atlasPlaceOf = (kind: AtlasPlace['kind'], id: string, beside: string | null): AtlasPlace => {
  switch (kind) {
    case 'maker':
      return { kind, id: asId<MakerId>(id) };
    case 'family':
      return { kind, id: asId<FamilyId>(id), beside: beside === null ? null : asId<FamilyId>(beside) };
    case 'model':
      return { kind, id: asId<ModelId>(id) };
    case 'part':
      return { kind, id: asId<PartId>(id) };
  }
};

/** Kind and id in turn; what is neither is left out. */
const subjectsIn = (hash: string): readonly SubjectRef[] => {
  const pieces = hash.split('/').slice(2).map(decoded);
  return pieces.flatMap((kind, i): SubjectRef[] => {
    const id = pieces[i + 1];
    if (i % 2 === 1 || !id) return [];
    switch (kind) {
      case 'family':
        return [{ kind, id: asId<FamilyId>(id) }];
      case 'model':
        return [{ kind, id: asId<ModelId>(id) }];
      case 'part':
        return [{ kind, id: asId<PartId>(id) }];
      default:
        return [];
    }
  });
};

/** `#/tree`, `#/tree/family/petrel`, `#/tree/family/petrel/model/tern-4`; what is no kind of node is left out. */
const picksOf = (hash: string): Picks => {
  const [, ...pieces] = hash.replace(/^#\/?/, '').split('/').map(decoded);
  const picks: Pick[] = [];
  for (let at = 0; at + 1 < pieces.length && picks.length < 2; at += 2) {
    const [kind, id] = [pieces[at], pieces[at + 1]];
    if (id && (kind === 'maker' || kind === 'family' || kind === 'generation' || kind === 'model' || kind === 'part'))
      picks.push({ kind, id } as Pick);
  }
  const [first, second] = picks;
  return first === undefined ? [] : second === undefined ? [first] : [first, second];
};

const decoded = (piece: string): string => {
  try {
    return decodeURIComponent(piece);
  } catch {
    return piece;
  }
};

export const goTo = (route: Route): void => {
  window.location.hash = hrefOf(route);
};

/** The same in the place of where one is: Back does not lead there any more. */
export const goInstead = (route: Route): void => {
  window.location.replace(hrefOf(route));
};

const subscribe = (changed: () => void) => {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
};

export function useRoute(): Route {
  return routeOf(useSyncExternalStore(subscribe, () => window.location.hash));
}

/** The screen that stands in the window: where it is, or behind the help page, where it was. */
export function useScreen(): Screen {
  const route = routeOf(useSyncExternalStore(subscribe, screenHash));
  return route.screen === 'help' ? { screen: 'unit' } : route;
}

let behind = '';
const screenHash = (): string => {
  const { hash } = window.location;
  if (routeOf(hash).screen !== 'help') behind = hash;
  return behind;
};
