import { capital } from '../../reasoner/plain/text.ts';
import type { EditedList } from '../route/editedLists.ts';

/** What a field is called in a form, and what is to be written there. */
export interface FieldWords {
  readonly label: string;
  readonly hint?: string;
  /** What an empty box says, where it is another thing than that it is not known. */
  readonly empty?: string;
}

/** What fields are called whichever entry they stand in. */
const everywhere: Readonly<Record<string, string>> = {
  id: 'Id',
  name: 'Name',
  alsoCalled: 'Also called',
  source: 'Source',
  slot: 'Slot',
  maker: 'Maker',
  family: 'Family',
  from: 'From',
  to: 'To',
  min: 'At least',
  max: 'At most',
  within: 'Off by at most',
  feature: 'Feature',
  kind: 'Kind',
  hours: 'Hours',
  patternOf: 'Pattern of',
  stage: 'Strip-down stage',
  port: 'Mating face',
  joint: 'Joint',
  part: 'Part',
  metal: 'Metal',
  after: 'After',
  unit: 'Unit',
  resolution: 'Smallest step',
  anyOf: 'Any of',
};

/** What one line of a list is called, its place behind it: `Rule 2`. */
const lines: Readonly<Record<string, string>> = {
  alsoCalled: 'Other name',
  tradeNames: 'Trade name',
  numbers: 'Number',
  words: 'Word',
  is: 'Word',
  demands: 'Rule',
  rules: 'Rule',
  pairs: 'Pair',
  options: 'Choice',
  anyOf: 'Choice',
  remarks: 'Remark',
  cuts: 'Cut',
  moves: 'Feature',
  offers: 'Feature',
  takes: 'Feature',
  cautions: 'Caution',
  links: 'Length',
  sides: 'Side',
  parts: 'Price',
  weights: 'Weight',
};

/** Tables whose left side somebody has typed: it is called as it stands there. */
const typedOnTheLeft: ReadonlySet<string> = new Set(['makers grammar.tokens.*.promises.*.of', 'makers numbering.*.pieces.*.codes']);

/** What they are called, and what belongs there, where it is not said by the name alone. By list and way; `*` is every place of a list. */
const words: Readonly<Record<string, Readonly<Record<string, string | readonly [label: string, hint: string, empty?: string]>>>> = {
  sources: { title: ['Title', 'As somebody would look for it: a sheet, a drawing, a letter, a day at the bench.'], kind: 'What it is' },
  stages: { minutes: 'Minutes to reach it', after: ['Reached after', 'The stages that must be reached first.'] },
  slots: {
    group: 'Belongs to',
    stage: ['Exchanged at', 'The stage at which the part itself can be exchanged.'],
    swapMinutes: 'Minutes for the exchange',
  },
  ports: { name: ['Name', 'As it stands after the part: “recess for the core”.'] },
  features: {
    name: ['Name', 'As it stands after “the turbine wheel’s …”: blade count, inducer diameter.'],
    kind: 'What is seen of it',
    unit: ['Unit', 'mm or deg for a measure; what is counted, in the plural, for a count.'],
    options: 'What can be chosen',
    'options.*.said': ['Said as', 'As it stands after “the shaft has …”: a left-hand stub thread.'],
    says: 'What it says of the unit',
    stage: ['Seen from', 'The strip-down stage at which it can first be seen.'],
    minutes: 'Minutes for a look',
    instrument: 'Instrument',
    wear: ['Allowed for wear', 'How far a used part may lie below and above its limits.'],
    'wear.below': 'Below',
    'wear.above': 'Above',
    plausible: ['Plausible', 'What a reading may be without being asked about.'],
    port: ['Dimension of', 'The mating face this is a dimension of, where it is one.'],
    remarks: 'Remarks on what is seen',
    'remarks.*.value': 'When this is seen',
    'remarks.*.value.value': 'Value',
    'remarks.*.value.option': 'Option',
    'remarks.*.value.present': 'It is there',
    'remarks.*.value.text': ['Letters', 'Nothing here means: looked, and there are none.'],
    'remarks.*.sentence': 'What to say',
  },
  joints: {
    a: 'One face',
    b: 'The other face',
    rules: ['What must hold', 'Lengths in mm.'],
    'rules.*.spigot': 'Spigot',
    'rules.*.recess': 'Recess',
    'rules.*.inner': 'Inner part',
    'rules.*.outer': 'Outer part',
    'rules.*.shaft': 'Shaft',
    'rules.*.bore': 'Bore',
    'rules.*.pairs': 'Pairs',
    'rules.*.pairs.*.wheel': 'Of the wheel',
    'rules.*.pairs.*.housing': 'Of the housing',
    'rules.*.pairs.*.way': 'Measured',
    'rules.*.pairs.*.needs': 'What one needs',
    'rules.*.pairs.*.offers': 'What the other offers',
    'rules.*.external': 'External thread',
    'rules.*.internal': 'Internal thread',
    'rules.*.external.size': 'Size',
    'rules.*.internal.size': 'Size',
    'rules.*.external.hand': 'Hand',
    'rules.*.internal.hand': 'Hand',
    'rules.*.a': 'One side',
    'rules.*.b': 'The other side',
    'rules.*.a.count': 'Holes',
    'rules.*.b.count': 'Holes',
    'rules.*.a.diameter': 'Circle',
    'rules.*.b.diameter': 'Circle',
    'rules.*.a.bolt': 'Bolt',
    'rules.*.b.bolt': 'Bolt',
    'rules.*.what': 'What must agree',
  },
  makers: {
    tradeNames: ['Traded as', 'Every name it traded under, with its years; “to” stays empty while it is in use.'],
    'tradeNames.*.to': ['To', '', 'today'],
    plateRule: ['A model carries its name only with this maker’s own plate', ''],
    grammar: ['How a name is built', 'Word by word, from the left.'],
    'grammar.tokens': 'The words of a name',
    'grammar.tokens.*': 'Word',
    'grammar.tokens.*.name': ['What it is called', 'So it is called where a name is explained: size step.'],
    'grammar.tokens.*.id': ['Short name', 'The rules below know it by this.'],
    'grammar.tokens.*.before': ['What stands before it', 'A space, a dash, or nothing.'],
    'grammar.tokens.*.optional': 'A name may do without it',
    'grammar.tokens.*.reads': 'What it reads',
    'grammar.tokens.*.reads.words': 'Words',
    'grammar.tokens.*.reads.length': 'How many letters',
    'grammar.tokens.*.reads.sign': 'Sign',
    'grammar.tokens.*.reads.from': 'From',
    'grammar.tokens.*.reads.to': 'To',
    'grammar.tokens.*.promises': ['What it promises of the parts', 'One that is not in the table promises nothing.'],
    'grammar.tokens.*.promises.*': 'Promise',
    'grammar.tokens.*.promises.*.of': 'What each stands for',
    'grammar.demands': ['What else must hold', 'When a word reads one of these, another must be there, or must not.'],
    'grammar.demands.*.when': 'When',
    'grammar.demands.*.when.token': 'This word',
    'grammar.demands.*.when.is': 'Reads one of',
    'grammar.demands.*.then': 'Then',
    'grammar.demands.*.then.token': 'This word',
    'grammar.demands.*.then.present': 'Must be there',
    'grammar.demands.*.because': ['Because', 'The sentence that is said where a name breaks this.'],
    numbering: ['How its numbers are made', 'Piece by piece, from the left. What is not here is not known.'],
    'numbering.*': 'Pattern of numbers',
    'numbering.*.id': ['Short name', 'It tells this pattern from the others.'],
    'numbering.*.says': 'What such a number is',
    'numbering.*.from': ['In use from', 'Empty: not known.'],
    'numbering.*.to': ['In use to', 'Empty: not known, or today.'],
    'numbering.*.pieces': 'Pieces',
    'numbering.*.pieces.*': 'Piece',
    'numbering.*.pieces.*.before': ['What stands before it', 'Spaces and signs alone.'],
    'numbering.*.pieces.*.text': 'Letters or figures',
    'numbering.*.pieces.*.codes': 'Code of each slot',
    'numbering.*.pieces.*.count': 'How many',
    'numbering.*.pieces.*.issue': 'It counts issues of the part',
    'numbering.*.pieces.*.among': ['Among', 'The letters there can be, each once.'],
    'numbering.*.pieces.*.figures': 'Figures of the year',
    'numbering.*.pieces.*.letters': ['Letters in turn', 'Each once.'],
    'numbering.*.pieces.*.first': 'Year of the first letter',
    'numbering.*.pieces.*.weights': ['Weights', 'From the left, and again from the first when they run out.'],
    'numbering.*.pieces.*.modulus': 'Divided by',
    'numbering.*.pieces.*.stamps': 'What is stamped',
    'numbering.*.pieces.*.ten': 'Stands for 10',
  },
  families: {
    maker: ['Maker', 'Empty: a group of pattern units known only by what it makes.'],
    from: ['Made from', 'Empty: not known.'],
    to: ['Made to', 'Empty: not known, or today.'],
    descendsFrom: 'Descends from',
    succeeds: 'Succeeds',
    about: ['What sets it apart', 'One line for whoever is learning.'],
  },
  generations: { from: ['Made from', 'Empty: not known.'], to: ['Made to', 'Empty: not known, or today.'], succeeds: 'Succeeds' },
  models: {
    name: ['Name', 'As the maker writes it, without the maker.'],
    generation: ['Generation', 'Of the family, where it has any.'],
    patternOf: ['Pattern of', 'For a pattern core: the model it is a pattern of.'],
    from: ['Made from', 'Empty: not known.'],
    to: ['Made to', 'Empty: not known, or today.'],
  },
  parts: {
    name: ['Name', 'What the shop calls it.'],
    maker: ['Maker', 'Empty: it bears no maker’s name.'],
    numbers: ['Numbers', 'Every number it was ever sold under.'],
    patternOf: ['Pattern of', 'The part it was made to the pattern of.'],
    supersedes: ['Took the place of', 'It may sit wherever that one may.'],
  },
  metals: {
    expansion: ['Expansion', 'Mean linear expansion, millionths per K.'],
    disc: ['For a wheel', 'What its growth at speed is reckoned from.'],
    'disc.density': 'Density, kg/m³',
    'disc.young': 'Young’s modulus, GPa',
    'disc.poisson': 'Poisson’s ratio',
  },
  operations: {
    name: ['Name', 'As the shop says it: open the recess.'],
    does: 'What it does',
    'does.cuts': 'Cuts',
    'does.cuts.*.way': 'The feature becomes',
    'does.cuts.*.most': 'The most that may come off, mm',
    'does.cuts.*.holds': 'How closely it holds its size',
    'does.cuts.*.holds.grade': 'Grade of ISO 286',
    'does.cuts.*.holds.tolerance': 'Tolerance, mm',
    'does.cuts.*.metal': 'Metal it eats into',
    'does.cuts.*.metal.*.per': 'Of each millimetre, one part in',
    'does.cuts.*.metal.*.leaves': 'What must be left, mm',
    'does.cuts.*.moves': 'What moves with it',
    'does.cuts.*.moves.*.times': 'By how many times what comes off',
    'does.way': 'The feature becomes',
    'does.wall': 'The thinnest ring that stands, mm',
    'does.holds': 'How closely it holds its size',
    'does.holds.grade': 'Grade of ISO 286',
    'does.holds.tolerance': 'Tolerance, mm',
    'does.count': 'Holes',
    'does.diameter': 'Circle',
    'does.bolt': 'Bolt',
    'does.land': 'The land between',
    'does.land.inner': 'Inner diameter',
    'does.land.outer': 'Outer diameter',
    'does.holes': 'Hole for each bolt, mm',
    'does.edge': 'Metal left at the edge, mm',
    'does.offers': 'What the new face can be',
    takes: ['Only of such parts', 'Each choice that a part must be one of these in.'],
    turning: 'The part turns in service, and must be balanced again',
    cautions: 'Cautions',
  },
  chains: {
    leaves: 'What is left',
    links: 'Lengths',
    'links.*.times': ['Times', 'How often the length enters: −1 takes it away.'],
    min: 'At least, mm',
    max: 'At most, mm',
  },
  warmth: {
    sides: 'Sides',
    'sides.*.metal': ['Metal', 'The choice that says what it is made of.'],
    'sides.*.rise': 'Warmer than 20 °C by, K',
    'sides.*.turns': 'It turns',
    'sides.*.turns.speed': 'rev/min',
    'sides.*.turns.bore': 'Its bore',
  },
  rates: { money: ['Money', 'What all prices are in.'], hour: 'An hour of work', parts: 'Prices of parts', 'parts.*.price': 'Price' },
  instruments: {
    u: ['Standard uncertainty', 'Of one reading, in its unit.'],
    basis: ['What that is made of', ''],
  },
  drawings: { drawing: 'Drawing', feeds: ['Drawn from', 'Which feature plays which role in it.'] },
  terms: {
    short: ['In one sentence', 'Where the word appears.'],
    more: 'What else one should know',
    drawn: 'Drawing that shows it',
    'drawn.look': 'What to look at',
    'drawn.best': 'Shown best by',
    'drawn.best.option': 'A part with the option',
    'drawn.best.present': 'A part that has it',
    'drawn.best.most': 'The part with most of it',
    near: 'Near to',
    everyday: 'Everybody knows it: it is not pointed out in a sentence',
  },
};

/** What a kind is, where its name alone does not tell. */
const kinds: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'makers grammar.tokens.*.promises.*': {
    number: 'number: it is the size itself',
    measure: 'measure: a size for each',
    choice: 'choice: which for each',
    count: 'count: how many for each',
  },
  'makers numbering.*.pieces.*': {
    fixed: 'fixed: always the same',
    slot: 'slot: a code for each',
  },
  'joints rules.*': {
    pilot: 'pilot: spigot in recess',
    services: 'services: one needs, the other offers',
    same: 'same: alike on both sides',
  },
};

export const kindWords = (list: string, path: readonly (string | number)[], kind: string): string =>
  kinds[`${list} ${wayOf(path)}`]?.[kind] ?? kind;

const wayOf = (path: readonly (string | number)[]): string => path.map((step) => (typeof step === 'number' ? '*' : step)).join('.');

/** `swapMinutes` as `Swap minutes`, where nothing better is said. */
const spelled = (field: string): string => capital(field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`));

export const fieldWords = (list: string, path: readonly (string | number)[]): FieldWords => {
  const said = words[list]?.[wayOf(path)];
  const field = String([...path].reverse().find((step) => typeof step !== 'number' && step !== '*') ?? '');
  const last = path.at(-1);
  if (said === undefined) {
    const holds = path.slice(
      0,
      path.findLastIndex((step) => typeof step !== 'number'),
    );
    if (typedOnTheLeft.has(`${list} ${wayOf(holds)}`)) return { label: field };
    if (typeof last === 'number' || last === '*') return { label: lines[field] ?? everywhere[field] ?? spelled(field) };
    return { label: everywhere[field] ?? spelled(field) };
  }
  const [label, hint, empty] = typeof said === 'string' ? [said, ''] : said;
  return { label, ...(hint === '' ? {} : { hint }), ...(empty === undefined ? {} : { empty }) };
};

/** What the lists are called where somebody looks for one to edit. */
const wordsOfLists: Readonly<Record<EditedList, { readonly name: string; readonly one: string }>> = {
  parts: { name: 'Parts', one: 'part' },
  models: { name: 'Models', one: 'model' },
  families: { name: 'Families', one: 'family' },
  generations: { name: 'Generations', one: 'generation' },
  makers: { name: 'Makers', one: 'maker' },
  sources: { name: 'Sources', one: 'source' },
  rates: { name: 'Rates', one: 'list of rates' },
  slots: { name: 'Slots', one: 'slot' },
  ports: { name: 'Mating faces', one: 'mating face' },
  features: { name: 'Features', one: 'feature' },
  joints: { name: 'Joints', one: 'joint' },
  stages: { name: 'Strip-down stages', one: 'strip-down stage' },
  instruments: { name: 'Instruments', one: 'instrument' },
  metals: { name: 'Metals', one: 'metal' },
  operations: { name: 'Works of the shop', one: 'kind of work' },
  chains: { name: 'Chains of lengths', one: 'chain of lengths' },
  warmth: { name: 'Joints that run warm', one: 'joint that runs warm' },
  drawings: { name: 'Drawings', one: 'drawing' },
  terms: { name: 'Words of the trade', one: 'word of the trade' },
};

export const listWords: Readonly<Record<string, { readonly name: string; readonly one: string } | undefined>> = wordsOfLists;
