import type { HelpSection } from '../help.ts';
import { label, say, typed } from '../said.ts';

/** The shop itself, and where all of it is kept. */
export const house: readonly HelpSection[] = [
  {
    id: 'shop',
    head: 'The shop: settings, stock, prices, papers',
    begins: { at: { screen: 'settings' }, is: label('The shop') },
    steps: [
      say`On ${label('Sheets')} or ${label('Stock')} press ${label('The shop…')}: ${label('Letterhead')} for what is printed, ${label('Who works here')}, ${label('Money')} with ${label('An hour’s work')}, and ${label('Measures')}. Each has a ${label('Save')} of its own.`,
      say`${label('Stock')}: ${label('Add a part')}, find it by name or number or tell it in words, and ${label('Put it on the list')}. ${label('Read a table…')} takes a CSV, ${label('Write as a table')} gives one. ${label('Take')} takes some off the shelf; ${label('History')} says what became of a line.`,
      say`What you ask for a part: on its page, under ${label('In the shop')}, or on ${label('Stock')} under ${label('Prices…')}, with ${label('Add a price')}, tables as of stock, and what was asked before. A part that is not on the list is not known, never free.`,
      say`Papers: on a part’s page, ${label('Add a paper…')}: a supplier’s sheet, a drawing, a letter. They stay in this shop, and go out with no pack.`,
    ],
  },
  {
    id: 'backups',
    head: 'Make a backup, and put one back',
    begins: { at: { screen: 'backups' }, is: label('Backups') },
    steps: [
      say`On ${label('Sheets')} press ${label('Backups…')}. They are made by themselves after every hour that brought something new, and before a pack is changed; ${label('Make a backup now')} makes one at once.`,
      say`${label('What would come back')} beside one says what would come back, and what would go.`,
      say`${label('Put it back…')}, and in the question ${label('Put it back')}. What there was is put into a backup of its own first.`,
      say`They lie on the same disk: copy the folder that is named there elsewhere now and then.`,
    ],
  },
  {
    id: 'data',
    head: 'Where the data lies',
    notes: [
      say`In one folder, of which ${label('Backups')} names the part with the backups. Everything is in it: atlas, cases, photographs, stock, settings, the shop’s key. Nothing is sent anywhere.`,
      say`Another folder is another shop: ${typed('npm start -- --data <folder>')} opens it beside this one.`,
    ],
  },
];
