import { keys } from '../../look/keys.ts';
import type { HelpSection } from '../help.ts';
import { label, pressed, say, typed } from '../said.ts';

const { forms, table, boxes } = keys;

/** How what a shop knows comes into the atlas. */
export const filling: readonly HelpSection[] = [
  {
    id: 'beginning',
    head: 'Begin an atlas',
    begins: { at: { screen: 'packs' }, is: label('Packs') },
    lead: say`The first window asks. Whatever is chosen can be taken out or added to later, under ${label('Packs')}.`,
    notes: [
      say`${label('Begin an empty one')}: the words of the trade alone, and no maker. This is where a shop’s own atlas begins.`,
      say`${label('Look round in the invented atlas')}: all of it made up, to see what Kinplate does. Later ${label('Put in')} and ${label('Take out')} under ${label('Packs')} bring it and take it away; what the shop entered itself stays.`,
      say`${label('Choose a folder…')} or ${label('Choose a ZIP…')}: a pack somebody made. It is read first; then ${label('Put it in')}.`,
    ],
  },
  {
    id: 'spreadsheet',
    head: 'Bring a spreadsheet',
    begins: { at: { screen: 'table' }, is: label('Bring a spreadsheet') },
    lead: say`A workbook, a CSV or copied cells, with a row of headings. Nothing is changed before the last step.`,
    steps: [
      say`Under ${label('Atlas')}: ${label('Bring a spreadsheet')}. Say ${label('What its rows are')}: ${label('Parts')}, ${label('Models')} or ${label('Facts')}. Then ${label('Choose a spreadsheet…')}, or paste the cells, headings too; written cells want ${label('Read these cells')}.`,
      say`Each column was taken for something by its heading; those that should be looked at are marked, and those taken for nothing are passed over. Type in ${label('something else…')} to correct one, ${pressed(boxes.lines.take)} takes it; pick the unit beside it where lengths are in inch. Say what ${label('All rows are')} where no column names the kind of part, and whom ${label('Rows without a maker are by')}.`,
      say`To have it read so next time, give the way a name at ${label('Keep how this is read, as')} and press ${label('Keep it')}.`,
      say`${label('Read the cells')}. ${label('Next cell to mend')} or ${pressed(table.lines.next)} leads to the next that cannot be read; the panel beside says what is wrong and what may have been meant. Write in the cell, or under ${label('Write instead')} and ${label('In this cell')}, or ${label('In all {3} that say so')}.`,
      say`Where the sheet is right after all: ${label('It is right: there are parts like that')} or ${label('The sheet is right, not the atlas')}. A maker that is missing: ${label('Add “{name}” as a new maker')}. A row that shall stay out: ${label('Leave row {12} out')}.`,
      say`${label('Look at the change')} (or ${label('Look at the change, without those rows')}): what is new, altered, said otherwise than a pack says it, and what would follow. Say what ${label('These figures are')}, ${label('Who')} and ${label('Why')}; then ${label('Make this change')}.`,
    ],
    notes: [
      say`And back: under ${label('Out of the atlas')} write the atlas, or what is found in it, by ${label('Write a workbook (.xlsx)')} or ${label('Write a CSV')}. Edited and brought in again, it changes only the cells that were edited.`,
    ],
  },
  {
    id: 'maker',
    head: 'Add a maker, how it builds names, how it makes numbers',
    begins: { at: { screen: 'edit', place: { at: 'new', list: 'makers', like: null } }, is: label('A new {maker}') },
    steps: [
      say`Under ${label('Atlas')} press ${label('Edit the atlas')}, go to ${label('Makers')}, and press ${label('Add {a maker}')}.`,
      say`Give ${label('Name')} and ${label('Source')}; where the source is not in the atlas yet, ${label('add {a source}')} beside the box leads to its form. Make that change, and Back returns to what you began. Later entries begin with the source used last. ${label('Traded as')} takes every other name, with its years. Tick ${label('A model carries its name only with this maker’s own plate')} where that is so.`,
      say`${label('How a name is built')}: ${label('Say it')}, then each of ${label('The words of a name')} from the left, by ${label('Add {another}')}. Give ${label('What it is called')}, ${label('What stands before it')} and ${label('What it reads')}. For names like ${typed('Sprat 7')}: called family, of the kind ${typed('word')}, its only word Sprat; then called size, a space before it, of the kind ${typed('whole number')}, from 1 to 20. ${label('What it promises of the parts')} may stay empty.`,
      say`${label('How its numbers are made')}: ${label('Add {one}')}, give its ${label('Name')} and ${label('What such a number is')}, then its ${label('Pieces')} from the left. For numbers like ${typed('BRK 1001')}: ${typed('fixed')}, BRK; then ${typed('digits')}, a space before them, called running number, 4 of them.`,
      say`${label('Try a name or a number')}: type a name without the maker, or a number, and read what the rules make of it. They must be whole for that, and need not be saved.`,
      say`On the right: ${label('What this would change')}. Below: ${label('Who')}, ${label('Why')}, ${label('From')}, by which the history tells changes apart; then ${label('Make the change')}, or ${pressed(forms.lines.make)}.`,
    ],
  },
  {
    id: 'model',
    head: 'Add a family and its models',
    begins: { at: { screen: 'edit', place: { at: 'new', list: 'families', like: null } }, is: label('A new {family}') },
    steps: [
      say`Under ${label('Edit the atlas')}, beside ${label('Families')}, press ${label('add')}. Give ${label('Name')}, ${label('Maker')}, ${label('Source')}; ${label('Descends from')} puts it into the tree. ${label('Make the change')}.`,
      say`Add the parts before the models that list them.`,
      say`Beside ${label('Models')} press ${label('add')}: ${label('Name')} as the maker writes it, ${label('Family')}, ${label('Source')}.`,
      say`${label('What may sit in each slot')}: in the line of a slot type a part’s name or number, ${pressed(boxes.lines.take)}. The focus goes to its role: ${pressed(forms.lines.role)}. At least one must name the model.`,
      say`A name stands only where every slot of the core lists something: ${label('Worth a second look')} says which do not. Tick ${label('This list is not whole')} where there may be parts the shop does not know of: what is not listed is then not known, and rules nothing out.`,
      say`${label('Make the change')}. For the next one, ${label('Another like it')} over the form begins with the same slots.`,
    ],
  },
  {
    id: 'part',
    head: 'Add a part; alter one, or many',
    begins: { at: { screen: 'edit', place: { at: 'new', list: 'parts', like: null } }, is: label('A new {part}') },
    steps: [
      say`Under ${label('Atlas')} press ${label('Add a part')}. Pick the ${label('Slot')}; give ${label('Name')}, ${label('Maker')}, ${label('Numbers')} and ${label('Source')}.`,
      say`${label('What is known of it')}: a line a feature, typed as the trade writes it; ${pressed(forms.lines.on)} goes on. Beside it stands how it reads. ${typed('?')} says that it was asked and nobody knows; an empty line says nothing.`,
      say`A fault stands at its line and keeps the change from being made; ${label('Worth a second look')} does not. Then ${label('Make the change')}.`,
    ],
    notes: [
      say`To alter one: its page in the atlas, ${label('Edit')}. ${label('The shop says otherwise than the pack')} shows where, with the way back: ${label('Take the pack’s word again')}.`,
      say`Several at once: under ${label('Edit the atlas')}, ${label('Parts')}, tick them or ${label('Mark all {12} found')}; then ${label('Say of all of them')} a feature, the maker or the source.`,
      say`At the foot of a form: ${label('Give it another id, make it one with another, or take it out…')}. What refers to it goes with it, and is shown first.`,
      say`Features, slots, joints, works of the shop and words are edited in the same way, under ${label('The vocabulary')}.`,
    ],
  },
];
