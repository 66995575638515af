import type { HelpSection } from '../help.ts';
import { label, say, typed } from '../said.ts';

/** The shop itself, and where all of it is kept. */
export const house: readonly HelpSection[] = [
  {
    id: 'shop',
    head: 'The shop: settings, stock, prices, papers',
    begins: { at: { screen: 'settings' }, is: label('The shop') },
    steps: [
      say`On ${label('Sheets')} or ${label('Stock')} press ${label('The shop…')}: ${label('Letterhead')} for what is printed, ${label('Who works here')}, ${label('Money')} with ${label('An hour’s work')}, ${label('Measures')}, and ${label('This counter')} for the letter its case numbers begin with. Each has a ${label('Save')} of its own.`,
      say`${label('Stock')}: ${label('Add a part')}, find it by name or number or tell it in words, and ${label('Put it on the list')}. ${label('Read a table…')} takes a CSV, ${label('Write as a table')} gives one. ${label('Take')} takes some off the shelf; ${label('History')} says what became of a line.`,
      say`What you ask for a part, once ${label('Money')} is said: on its page, under ${label('In the shop')}, ${label('Say a price')}; or on ${label('Stock')} under ${label('Prices…')}, with ${label('Add a price')}, tables as of stock, and what was asked before. A part that is not on the list is not known, never free.`,
      say`Papers: on a part’s page, under ${label('Papers of this part')} or ${label('Papers of this source')}, ${label('Add a paper…')}: a supplier’s sheet, a drawing, a letter. They stay in this shop, and go out with no pack.`,
    ],
  },
  {
    id: 'backups',
    head: 'Make a backup, and put one back',
    begins: { at: { screen: 'backups' }, is: label('Backups') },
    steps: [
      say`On ${label('Sheets')} press ${label('Backups…')}. They are made by themselves after every hour that brought something new, and before a pack is changed; ${label('Make a backup now')} makes one at once.`,
      say`${label('What would come back')} beside one says what would come back, and what would go.`,
      say`${label('Put it back…')}, and in the question ${label('Put it back')}. What there was is put into a backup of its own first. Then ${label('Go on with what was put back')}.`,
      say`They lie on the same disk: copy the folder that is named there elsewhere now and then.`,
    ],
  },
  {
    id: 'data',
    head: 'Where the data lies',
    notes: [
      say`In one folder, inside which lies the one with the backups that ${label('Backups')} names. Atlas, cases, photographs, stock and settings are one file in it, ${typed('atlas.sqlite')}, and in every backup. Nothing is sent anywhere.`,
      say`The shop’s key is a file beside it, ${typed('signing-key.pem')}, and in no backup: keep a copy where only this shop gets at it.`,
      say`Another folder is another shop: ${typed('npm start -- --data <folder>')} opens it beside this one.`,
    ],
  },
];
