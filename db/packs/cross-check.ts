import type { Atlas, Family, Feature, FeatureKind, FitRule, GrammarToken, Id, Joint, Maker, TokenPromise } from '../../reasoner/index.ts';
import { checkShop } from './cross-check-shop.ts';
import type { Faults, Place } from './faults.ts';
import { findCycle } from './find-cycle.ts';
import { pathText } from './json-places.ts';
import type { JsonFile, PackModel } from './pack.ts';
import type { FileContents } from './schemas.ts';

type Named = { readonly id: string };
/** Where an entry of a JSON file, or something in it, stands. */
export type PlaceOf = (file: JsonFile, path: readonly PropertyKey[]) => Place;

/** Looks ids up in the pack first and then in the atlas beside it. A file that could not be read whole answers for nothing. */
export class Lookup<T extends Named> {
  readonly #byId = new Map<string, T>();
  readonly what: string;
  readonly #silent: boolean;
  constructor(what: string, silent: boolean, ...lists: readonly (readonly T[])[]) {
    this.what = what;
    this.#silent = silent;
    for (const list of lists) for (const entry of list) if (!this.#byId.has(entry.id)) this.#byId.set(entry.id, entry);
  }
  get(id: string): T | undefined {
    return this.#byId.get(id);
  }
  /** The entry; or undefined, with a fault where its absence is certain. */
  find(id: string, place: Place, faults: Faults): T | undefined {
    const found = this.#byId.get(id);
    if (found === undefined && !this.#silent) faults.add(place, JSON.stringify(id), `the id of a ${this.what} in this pack or the atlas`);
    return found;
  }
}

export const lookupsFor = (files: FileContents, beside: Atlas, faults: Faults) => {
  const of = <T extends Named>(what: string, file: JsonFile, own: readonly T[], others: readonly T[]) =>
    new Lookup<T>(what, faults.isBroken(file), own, others);
  return {
    source: of('source', 'sources.json', files['sources.json'], beside.sources),
    stage: of('stage', 'stages.json', files['stages.json'], beside.stages),
    slot: of('slot', 'slots.json', files['slots.json'], beside.slots),
    port: of('port', 'ports.json', files['ports.json'], beside.ports),
    feature: of<Feature>('feature', 'features.json', files['features.json'], beside.features),
    maker: of<Maker>('maker', 'makers.json', files['makers.json'], beside.makers),
    family: of<Family>('family', 'families.json', files['families.json'], beside.families),
    generation: of('generation', 'generations.json', files['generations.json'], beside.generations),
    model: of<Named>('model', 'models.json', files['models.json'], beside.models),
    joint: of('joint', 'joints.json', files['joints.json'], beside.joints),
    instrument: of('instrument', 'instruments.json', files['instruments.json'], beside.instruments ?? []),
    metal: of('metal', 'metals.json', files['metals.json'], beside.metals ?? []),
  };
};
export type Lookups = ReturnType<typeof lookupsFor>;

/** Ids once each, references that lead somewhere, kinds that agree, and no circles: for everything in the JSON files. */
export const crossCheckFiles = (files: FileContents, beside: Atlas, find: Lookups, placeOf: PlaceOf, faults: Faults): void => {
  for (const [file, entries] of Object.entries(files) as [JsonFile, readonly Named[]][]) {
    idsOnce(entries, (index) => placeOf(file, [index, 'id']), faults);
  }
  for (const [i, { after }] of files['stages.json'].entries()) {
    for (const [k, id] of after.entries()) find.stage.find(id, placeOf('stages.json', [i, 'after', k]), faults);
  }
  for (const [i, { stage }] of files['slots.json'].entries()) find.stage.find(stage, placeOf('slots.json', [i, 'stage']), faults);
  for (const [i, { slot }] of files['ports.json'].entries()) find.slot.find(slot, placeOf('ports.json', [i, 'slot']), faults);
  files['features.json'].forEach((feature, i) => {
    const at = (field: string) => placeOf('features.json', [i, field]);
    find.slot.find(feature.slot, at('slot'), faults);
    find.stage.find(feature.stage, at('stage'), faults);
    const port = feature.port === undefined ? undefined : find.port.find(feature.port, at('port'), faults);
    if (port !== undefined && port.slot !== feature.slot) faults.add(at('port'), `a port of ${port.slot}`, `a port of ${feature.slot}`);
    feature.remarks?.forEach(({ source }, k) => {
      find.source.find(source, placeOf('features.json', [i, 'remarks', k, 'source']), faults);
    });
  });
  for (const [i, joint] of files['joints.json'].entries()) checkJoint(joint, (path) => placeOf('joints.json', [i, ...path]), find, faults);
  for (const [i, maker] of files['makers.json'].entries()) checkMaker(maker, (path) => placeOf('makers.json', [i, ...path]), find, faults);
  files['families.json'].forEach((family, i) => {
    const at = (...path: PropertyKey[]) => placeOf('families.json', [i, ...path]);
    if (family.maker !== null) find.maker.find(family.maker, at('maker'), faults);
    for (const field of ['descendsFrom', 'succeeds', 'patternOf'] as const) {
      family[field].forEach((id, k) => {
        find.family.find(id, at(field, k), faults);
        if (family[field].indexOf(id) !== k) faults.add(at(field, k), `${JSON.stringify(id)} twice`, 'every family once');
      });
    }
    find.source.find(family.source, at('source'), faults);
  });
  files['generations.json'].forEach((generation, i) => {
    const at = (field: string) => placeOf('generations.json', [i, field]);
    find.family.find(generation.family, at('family'), faults);
    const before = generation.succeeds === null ? undefined : find.generation.find(generation.succeeds, at('succeeds'), faults);
    if (before !== undefined && before.family !== generation.family) {
      faults.add(at('succeeds'), `a generation of ${before.family}`, `a generation of ${generation.family}`);
    }
    find.source.find(generation.source, at('source'), faults);
  });
  files['models.json'].forEach((model, i) => {
    const at = (field: string) => placeOf('models.json', [i, field]);
    find.family.find(model.family, at('family'), faults);
    const generation = model.generation === null ? undefined : find.generation.find(model.generation, at('generation'), faults);
    if (generation !== undefined && generation.family !== model.family) {
      faults.add(at('generation'), `a generation of ${generation.family}`, `a generation of ${model.family}`);
    }
    if (model.patternOf !== null) find.model.find(model.patternOf, at('patternOf'), faults);
    model.openEnded?.forEach((id, k) => {
      const place = placeOf('models.json', [i, 'openEnded', k]);
      const slot = find.slot.find(id, place, faults);
      if (slot?.group === 'plate') faults.add(place, `the ${slot.name}`, 'a slot of the core or a housing');
      if (model.openEnded?.indexOf(id) !== k) faults.add(place, `${JSON.stringify(id)} twice`, 'every slot once');
    });
    find.source.find(model.source, at('source'), faults);
  });
  checkShop(files, beside, find, placeOf, faults);
  circles(files, beside, placeOf, faults);
};

const circles = (files: FileContents, beside: Atlas, placeOf: PlaceOf, faults: Faults): void => {
  const check = <T extends Named>(
    file: JsonFile,
    own: readonly T[],
    others: readonly T[],
    field: keyof T & string,
    next: (entry: T) => readonly string[],
  ) => {
    const cycle = findCycle(own, others, next);
    if (cycle !== null) faults.add(placeOf(file, [cycle.index, field]), `a circle: ${cycle.ids.join(' → ')}`, 'an order without circles');
  };
  const families = files['families.json'];
  check('stages.json', files['stages.json'], beside.stages, 'after', (stage) => stage.after);
  check<Family>('families.json', families, beside.families, 'descendsFrom', (family) => [...family.descendsFrom, ...family.succeeds]);
  check<Family>('families.json', families, beside.families, 'patternOf', (family) => family.patternOf);
  check('generations.json', files['generations.json'], beside.generations, 'succeeds', ({ succeeds }) =>
    succeeds === null ? [] : [succeeds],
  );
  check<PackModel>('models.json', files['models.json'], beside.models, 'patternOf', ({ patternOf }) =>
    patternOf === null ? [] : [patternOf],
  );
};

export const idsOnce = (entries: readonly Named[], placeOf: (index: number) => Place, faults: Faults): void => {
  const first = new Map<string, number>();
  entries.forEach(({ id }, index) => {
    const before = first.get(id);
    if (before === undefined) first.set(id, index);
    else
      faults.add(
        placeOf(index),
        `${JSON.stringify(id)} a second time`,
        `an id of its own (row ${placeOf(before).row ?? before + 1} has this one)`,
      );
  });
};

type At = (path: readonly PropertyKey[]) => Place;

const checkJoint = (joint: Joint, at: At, find: Lookups, faults: Faults): void => {
  find.source.find(joint.source, at(['source']), faults);
  const a = find.port.find(joint.a, at(['a']), faults);
  const b = find.port.find(joint.b, at(['b']), faults);
  if (a === undefined || b === undefined) return;
  if (a.slot === b.slot) {
    faults.add(at(['b']), `a port of ${b.slot}, like a`, 'a port of another slot');
    return;
  }
  joint.rules.forEach((rule, index) => {
    for (const { path, id, kinds, across } of dimensionsOf(rule)) {
      const place = at(['rules', index, ...path]);
      const feature = find.feature.find(id, place, faults);
      if (feature === undefined) continue;
      if (!kinds.includes(feature.kind)) faults.add(place, `the ${feature.kind} ${JSON.stringify(id)}`, `a ${kinds.join(' or ')}`);
      if (feature.slot !== a.slot && feature.slot !== b.slot)
        faults.add(place, `a feature of ${feature.slot}`, `a feature of ${a.slot} or ${b.slot}`);
      else if (find.feature.get(across)?.slot === feature.slot)
        faults.add(place, `a feature of ${feature.slot}, like its counterpart`, 'a feature of the other part');
    }
  });
};

interface Dimension {
  readonly path: readonly PropertyKey[];
  readonly id: Id<'feature'>;
  readonly kinds: readonly FeatureKind[];
  /** The feature it is held against, which must be the other part's. */
  readonly across: Id<'feature'>;
}

/** Every feature a rule names, with the kinds it may be of. */
const dimensionsOf = (rule: FitRule): Dimension[] => {
  const pair = (
    kinds: readonly FeatureKind[],
    [pathA, a]: [PropertyKey[], Id<'feature'>],
    [pathB, b]: [PropertyKey[], Id<'feature'>],
  ): Dimension[] => [
    { path: pathA, id: a, kinds, across: b },
    { path: pathB, id: b, kinds, across: a },
  ];
  switch (rule.kind) {
    case 'pilot':
      return pair(['measure'], [['spigot'], rule.spigot], [['recess'], rule.recess]);
    case 'running clearance':
      return pair(['measure'], [['inner'], rule.inner], [['outer'], rule.outer]);
    case 'press fit':
      return pair(['measure'], [['shaft'], rule.shaft], [['bore'], rule.bore]);
    case 'wheel to contour':
      return rule.pairs.flatMap(({ wheel, housing }, k) =>
        pair(['measure'], [['pairs', k, 'wheel'], wheel], [['pairs', k, 'housing'], housing]),
      );
    case 'thread':
      return (['size', 'hand'] as const).flatMap((field) =>
        pair(['choice'], [['external', field], rule.external[field]], [['internal', field], rule.internal[field]]),
      );
    case 'bolt circle':
      return [
        ...pair(['count'], [['a', 'count'], rule.a.count], [['b', 'count'], rule.b.count]),
        ...pair(['measure'], [['a', 'diameter'], rule.a.diameter], [['b', 'diameter'], rule.b.diameter]),
        ...pair(['choice'], [['a', 'bolt'], rule.a.bolt], [['b', 'bolt'], rule.b.bolt]),
      ];
    case 'services':
      return rule.pairs.flatMap(({ needs, offers }, k) =>
        pair(['presence'], [['pairs', k, 'needs'], needs], [['pairs', k, 'offers'], offers]),
      );
    case 'clamp profile':
    case 'direction of rotation':
    case 'same':
      return pair(['choice'], [['a'], rule.a], [['b'], rule.b]);
  }
};

const checkMaker = (maker: Maker, at: At, find: Lookups, faults: Faults): void => {
  find.source.find(maker.source, at(['source']), faults);
  checkNumbering(maker, at, find, faults);
  if (maker.grammar === null) return;
  const tokens = new Set(maker.grammar.tokens.map((token) => token.id));
  idsOnce(maker.grammar.tokens, (k) => at(['grammar', 'tokens', k, 'id']), faults);
  maker.grammar.tokens.forEach((token, i) => {
    token.promises.forEach((promise, k) => {
      const path = ['grammar', 'tokens', i, 'promises', k];
      const feature = find.feature.find(promise.feature, at([...path, 'feature']), faults);
      if (feature === undefined) return;
      const kinds: readonly FeatureKind[] = promise.kind === 'number' ? ['measure', 'count'] : [promise.kind];
      if (!kinds.includes(feature.kind))
        faults.add(at([...path, 'feature']), `the ${feature.kind} "${feature.id}"`, `a ${kinds.join(' or ')}`);
      else if (promise.kind === 'choice') checkPromisedOptions(promise.of, feature, (...rest) => at([...path, 'of', ...rest]), faults);
      else if (promise.kind === 'measure') checkPromisedSizes(promise, token, (...rest) => at([...path, ...rest]), faults);
    });
  });
  maker.grammar.demands.forEach((demand, i) => {
    for (const side of ['when', 'then'] as const) {
      if (!tokens.has(demand[side].token))
        faults.add(at(['grammar', 'demands', i, side, 'token']), JSON.stringify(demand[side].token), 'a token of this grammar');
    }
  });
};

/** Codes stand for slots; a check digit has figures before it. */
const checkNumbering = ({ numbering = [] }: Maker, at: At, find: Lookups, faults: Faults): void => {
  idsOnce(numbering, (k) => at(['numbering', k, 'id']), faults);
  numbering.forEach(({ pieces, from }, i) => {
    pieces.forEach((piece, k) => {
      const path = ['numbering', i, 'pieces', k];
      if (piece.kind === 'year' && piece.figures === 2 && from === null)
        faults.add(at(['numbering', i, 'from']), 'null', 'the year the pattern began, for a year of two figures');
      if (piece.kind === 'slot')
        for (const [code, slot] of Object.entries(piece.codes)) find.slot.find(slot, at([...path, 'codes', code]), faults);
      if (piece.kind === 'check digit' && k === 0)
        faults.add(at([...path, 'kind']), 'a check digit with nothing before it', 'pieces with figures before it');
    });
  });
};

/** A table of sizes stands for texts its token reads, and none of its sizes is within the leeway of nothing. */
const checkPromisedSizes = (
  { of, within }: Extract<TokenPromise, { kind: 'measure' }>,
  { reads }: GrammarToken,
  at: (...path: PropertyKey[]) => Place,
  faults: Faults,
): void => {
  if (Object.keys(of).length === 0) faults.add(at('of'), 'an empty table', 'at least one text with its size');
  for (const [text, size] of Object.entries(of)) {
    if (!readsAs(reads, text)) faults.add(at('of', text), JSON.stringify(text), 'a text its token reads, as the grammar writes it');
    if (size <= within) faults.add(at('of', text), `${size} within ${within}`, 'a size above its leeway');
  }
};

/** Whether a token reads this text and writes it so; a Roman numeral is held to its letters alone. */
const readsAs = (reads: GrammarToken['reads'], text: string): boolean => {
  switch (reads.kind) {
    case 'word':
      return reads.words.includes(text);
    case 'whole number':
      return /^(0|[1-9]\d*)$/.test(text) && Number(text) >= reads.from && Number(text) <= reads.to;
    case 'roman numeral':
      return /^[IVXLCDM]+$/.test(text);
    case 'letters':
      return /^\p{L}+$/u.test(text) && [...text].length === reads.length && text === text.toUpperCase();
    case 'sign':
      return Array.from({ length: reads.to - reads.from + 1 }, (_, k) => reads.sign.repeat(reads.from + k)).some(
        (each) => each !== '' && each === text,
      );
  }
};

const checkPromisedOptions = (
  of: Readonly<Record<string, readonly string[]>>,
  feature: Feature,
  at: (...path: PropertyKey[]) => Place,
  faults: Faults,
): void => {
  const options = feature.options?.map((option) => option.id) ?? [];
  for (const [word, promised] of Object.entries(of)) {
    promised.forEach((option, k) => {
      if (!options.includes(option)) faults.add(at(word, k), JSON.stringify(option), options.join(' or '));
    });
  }
};

export const placeIn = (file: string, path: readonly PropertyKey[], row: number | null): Place => ({ file, row, column: pathText(path) });
