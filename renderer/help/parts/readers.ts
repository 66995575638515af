import { keys } from '../../look/keys.ts';
import type { HelpPart } from '../help.ts';
import { label, pressed, say } from '../said.ts';

const { unit, everywhere, guided } = keys;

export const counter: HelpPart = {
  id: 'at-the-counter',
  head: 'At the counter',
  sections: [
    {
      id: 'first-case',
      head: 'The guided first case',
      lead: say`Five minutes in the invented atlas: a unit with a known housing on a nameless core, from an empty sheet to the words for the ticket.`,
      notes: [
        say`It is offered once the invented atlas is begun. The button at the head of Help in the window begins it at any time.`,
        say`A strip under the bar says what to do and why, and what it is about is framed. ${label('Take me there')}, or ${pressed(guided.lines.go)}, puts the focus there. It notices by itself what is done, and writes nothing.`,
        say`${label('Leave the first case')} puts it away. Begun again, it goes on where the sheet stands.`,
      ],
    },
    {
      id: 'counter',
      head: 'Say what a unit is',
      begins: { at: { screen: 'unit' }, is: label('Unit') },
      steps: [
        say`Under ${label('Sheets')} press ${label('New sheet')}. At ${label('Offered as')} pick the maker and write the name as it is written. A seller’s text goes in by ${label('Read a listing…')}.`,
        say`Go to a slot, type some letters of a feature, ${pressed(unit.lines.enter)}, then what it is, and ${pressed(unit.lines.enter)} again. Pick ${label('told')} where somebody only said so. Tick ${label('absent')} where the part is not with the unit.`,
        say`A figure that is hard to believe is asked about once. Mend it, or say that it is right.`,
        say`On the right stands what became of the claim and why, the honest name on its plate, the words for the ticket, and the ${label('Next check')}: ${label('Enter it')} opens it in the sheet (${pressed(unit.lines.next)}). Where it cannot be done, say why: ${label('could not see')}, ${label('may not be opened')}, ${label('no instrument')}.`,
        say`${label('Why')} gives the reasons, fewest entries first. ${label('What next')} lists the next checks with what each would settle; folded under them are how likely each name is (odds, no verdict), the other checks and the whole plan.`,
        say`${label('For the ticket')} holds both texts and the cautions; ${label('Copy')} (${pressed(unit.lines.copy)}) takes all of it, ${label('Print')} makes a small tag. Each sentence unfolds to what it rests on.`,
        say`${label('Save')} makes the sheet a case with a number. ${label('Report')} is for the customer: ${label('Print the report')} or ${label('Save as PDF')}.`,
      ],
    },
    {
      id: 'several-units',
      head: 'Have several units open',
      begins: { at: { screen: 'sheets' }, is: label('Sheets') },
      steps: [
        say`On ${label('Sheets')} press ${label('New sheet')}, or open a case or a sample. It opens beside what is open already, and so does a build begun from a unit.`,
        say`From two on, a line of them stands over the sheet. Press one, or ${pressed(everywhere.lines.nextUnit)} for the next and ${pressed(everywhere.lines.unitBefore)} for the one before. A dot stands at what is not saved.`,
        say`${label('All {3}…')} at the end of the line shows them side by side: what each is offered as, its honest name, its next check.`,
        say`${label('Save')} (${pressed(everywhere.lines.save)}) saves the one that is shown; the cross at its name closes it.`,
      ],
    },
    {
      id: 'plate-number',
      head: 'Read the number on a plate while it is typed',
      begins: { at: { screen: 'unit' }, is: label('Unit') },
      steps: [
        say`At the slot of the nameplate type the letters of its part number, or of its serial number, and ${pressed(unit.lines.enter)}.`,
        say`Type the number as it stands there; spaces, signs and case make no difference. At every key the line under it says whose numbers begin so, what each piece means, and what is still to come.`,
        say`Where a sign cannot stand, it is said from which one on. Look at the plate again; it may be a slip, or a number nobody makes.`,
        say`Once it is whole, the part stands there: its slot, its models with their years, and what took its place. ${pressed(unit.lines.enter)} takes it.`,
        say`For a number without a unit press ${label('Number')} in the bar (${pressed(everywhere.lines.number)}); it is read the same way.`,
      ],
    },
    {
      id: 'shelf',
      head: 'Cases, and many at once',
      begins: { at: { screen: 'sheets' }, is: label('Sheets') },
      notes: [
        say`${label('Case file')}, in the bar over a saved sheet: customer, notes, photographs by ${label('Add photographs…')}, every saved state with what was told then, and what the shop or the maker decided.`,
        say`${label('Save as one file')} in the case file takes the whole case with its photographs elsewhere; there, ${label('Take in a case…')} on ${label('Sheets')} shows what it holds and takes it in.`,
        say`${label('Many listings…')} reads a table of listings row by row, by ${label('A table of listings…')} or pasted, and sorts them by how plainly their claims fail: names nobody makes, then those the seller’s own words speak against. ${label('Its columns')} takes the table otherwise. A row opens as a unit; going back leads to the list as it was.`,
        say`${label('Cases judged once more…')} judges the saved cases by the atlas as it is today.`,
      ],
    },
    {
      id: 'number',
      head: 'Ask for a part number',
      notes: [
        say`${label('Number')} in the bar, or ${pressed(everywhere.lines.number)} on any screen: what the part is, where it is used, what took its place, what else fits there, what is in stock. Spaces, signs and case make no difference.`,
      ],
    },
  ],
};

export const hybrid: HelpPart = {
  id: 'building',
  head: 'Building a hybrid',
  sections: [
    {
      id: 'hybrid',
      head: 'Plan a build',
      begins: { at: { screen: 'build', place: 'bench' }, is: label('Build') },
      steps: [
        say`${label('Start from a core')}: type a model, and its core goes on the bench. Or begin with an ${label('Empty build')}, or go on with a planned one.`,
        say`Pick a slot on the left. Below it stand the parts of the atlas: those that drop in, those that go in after work, those of which it is not known, and why the rest will not fit. Press one to choose it; ${label('Take out')} empties the slot.`,
        say`What you measured on ${label('The part in hand')} counts before what the atlas says of its kind.`,
        say`On the right: every joint with what decides it, the work with finished sizes and metal left, how it runs warm, hours and cost, and the ${label('Name')} it may honestly carry. Parts in ${label('Stock')} that are ready to go in cost nothing more.`,
        say`${label('Fill the open slots')} looks for every way to complete it within what you allow.`,
        say`${label('Build sheet')}, then ${label('Print the build sheet')}: for the bench. ${label('Save')} keeps the build among the sheets.`,
      ],
    },
    {
      id: 'side-by-side',
      head: 'Compare builds',
      begins: { at: { screen: 'build', place: 'compare' }, is: label('Compare') },
      steps: [
        say`Let ${label('Fill the open slots')} look for builds, tick those you weigh in its table, and press ${label('Compare those ticked')}.`,
        say`${label('Add a build')}: some letters of a title bring a saved build, or the one on the bench, beside them. Five stand side by side at most.`,
        say`What differs stands first: names, totals, parts with price and stock, and what each joint must have machined. What is not known to differ follows. Tick ${label('show what is alike')} for the rest.`,
        say`A total that lacks a price, or of a build with open slots, is ${label('at least')} so much.`,
        say`${label('Put on the bench')} goes on with a variant, ${label('Open')} with a saved build; ${label('Print the comparison')} is for the customer’s file.`,
      ],
    },
  ],
};

export const learning: HelpPart = {
  id: 'learners',
  head: 'Learning',
  sections: [
    {
      id: 'learning',
      head: 'Ways to learn the families',
      begins: { at: { screen: 'tree', picks: [] }, is: label('Tree') },
      notes: [
        say`${label('Tree')}: how the families descend from one another, along the years. Pick two: ${label('How they are related')}, and ${label('What tells them apart')}.`,
        say`${label('Tell apart')}: two to five families, models or parts, with the fewest checks between them and ${label('Why no fewer')}.`,
        say`${label('Key')}: a key to all models or families, for the wall; ${label('Print')}.`,
        say`${label('Drills')}: ${label('Add learner')}, then one question after another, judged by the same reasoning as a unit. A beginner is asked what eyes and a rule can tell; ${label('Level')} changes it. What was missed is asked again sooner. ${label('Mix-ups')} shows what was taken for what, ${label('Courses')} sets what is asked, ${label('Who knows what')} stands in one table, ${label('Sheet of questions')} prints.`,
        say`${label('The whole glossary')}, under ${label('Words')} in the bar: the words of the trade, each drawn from a part of the atlas.`,
      ],
    },
  ],
};
