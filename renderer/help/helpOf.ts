import type { EditPlace, Screen } from '../route/route.ts';

/** The heading of help that belongs to a screen. */
export const helpOf = (screen: Screen): string => {
  switch (screen.screen) {
    case 'unit':
    case 'report':
    case 'case':
      return 'counter';
    case 'sheets':
    case 'listings':
    case 'retold':
      return 'shelf';
    case 'build':
      return screen.place === 'compare' ? 'side-by-side' : 'hybrid';
    case 'tree':
    case 'apart':
    case 'key':
    case 'drills':
    case 'glossary':
      return 'learning';
    case 'atlas':
      return 'keeping';
    case 'edit':
      return helpOfEdit(screen.place);
    case 'table':
      return 'spreadsheet';
    case 'packs':
      return 'pack';
    case 'history':
      return 'history';
    case 'settings':
    case 'stock':
    case 'prices':
      return 'shop';
    case 'backups':
      return 'backups';
    case 'unknown':
      return 'answers';
  }
};

const helpOfEdit = (place: EditPlace): string => {
  if (place.at === 'lists') return 'keeping';
  switch (place.list) {
    case 'makers':
      return 'maker';
    case 'families':
    case 'generations':
    case 'models':
      return 'model';
    default:
      return 'part';
  }
};
