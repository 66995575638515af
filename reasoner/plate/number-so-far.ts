import type { NumberSoFar, PartSoFar, PieceSoFar, ReadSoFar } from '../answer/number-so-far.ts';
import type { Maker, Model, Part } from '../atlas/atlas.ts';
import { isNamed } from '../atlas/maker-names.ts';
import type { Era, NumberPattern, NumberPiece } from '../atlas/number-pattern.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { asId, type FeatureId, type ObservationId, type SlotId } from '../ids.ts';
import { bare } from '../plain/letters.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { meansOf, nameOf, wantedOf } from './number-pieces.ts';
import { lastSuccessorOf, modelsOf, partsNumbered } from './part-index.ts';
import { begins, readPiece } from './read-number.ts';
import { unlistedNumber } from './unlisted-number.ts';

/** So many readings are told. */
const mostReadings = 3;
/** So many models a number may be of. */
const mostModels = 8;

interface Asked {
  readonly says: 'part number' | 'serial number';
  /** Of an entry of the plate: its feature, and what else is on the sheet. The trade name there says whose number it is. */
  readonly entry: { readonly feature: FeatureId; readonly sheet: Sheet } | null;
}

/** What a number means as far as it is typed, at whatever sign one stops (O5). Case, spaces and signs do not count. */
export const numberSoFar = (atlas: CompiledAtlas, text: string, { says, entry }: Asked): NumberSoFar => {
  const typed = signsOf(text);
  const named = entry === null ? [] : makersNamed(atlas, entry.sheet);
  const slot = entry === null ? null : (atlas.features.get(entry.feature)?.slot ?? null);
  const patternsOf = ({ numbering = [] }: Maker) => numbering.filter((pattern) => pattern.says === says);
  const walks = atlas.data.makers.flatMap((maker) =>
    patternsOf(maker).flatMap((pattern) =>
      walksOf(pattern, typed.map(({ sign }) => sign).join('')).map(
        (walk): Walked => ({ maker, pattern, walk, ofAnother: named.length > 0 && !named.includes(maker) }),
      ),
    ),
  );
  const best = likeliest(walks, slot);
  const parts = says === 'part number' ? partsNumbered(atlas, text) : [];
  const state = best[0] === undefined ? 'none' : best[0].walk.end.kind;
  return {
    state,
    readings: best.slice(0, mostReadings).map((one) => soFar(atlas, one, text, typed)),
    silent: (named.length > 0 ? named : atlas.data.makers).filter((maker) => patternsOf(maker).length === 0).map(({ id }) => id),
    parts: parts.map((part) => partSoFar(atlas, part)),
    mayBeOf: state === 'whole' && parts.length === 0 && says === 'part number' && entry !== null ? mayBeOf(atlas, text, entry) : [],
  };
};

/** Letters and figures of a text as they are compared, each with its place. */
const signsOf = (text: string): readonly { readonly sign: string; readonly at: number }[] => {
  let at = 0;
  return [...text].flatMap((each) => {
    const here = at;
    at += each.length;
    return [...bare(each)].map((sign) => ({ sign, at: here }));
  });
};

const makersNamed = (atlas: CompiledAtlas, sheet: Sheet): readonly Maker[] => {
  const names = sheet.observations.flatMap(({ feature, value, sure }) =>
    atlas.features.get(feature)?.says === 'trade name' && sure.kind !== 'told' && value.kind === 'mark' && value.text !== null
      ? [value.text]
      : [],
  );
  return atlas.data.makers.filter((maker) => names.some((name) => isNamed(maker, name)));
};

/** How far a pattern reads a number: its pieces, and how it ends. Places are among the signs that are compared. */
interface Walk {
  readonly pieces: readonly {
    readonly piece: NumberPiece;
    readonly from: number;
    readonly to: number;
    readonly says: ReturnType<typeof readPiece>[number]['says'];
  }[];
  readonly end:
    | { readonly kind: 'whole' | 'begun' }
    /** From here on it cannot be so; the piece is null where there is more than the pattern has. */
    | { readonly kind: 'wrong'; readonly at: number };
}

/** Every way a pattern reads a number as far as it goes; a way for each piece that may be read in several. */
const walksOf = (pattern: NumberPattern, number: string): readonly Walk[] => {
  const walks: Walk[] = [];
  const step = (pieces: Walk['pieces'], at: number): void => {
    const piece = pattern.pieces[pieces.length];
    if (piece === undefined) {
      walks.push({ pieces, end: at === number.length ? { kind: 'whole' } : { kind: 'wrong', at } });
      return;
    }
    const found = readPiece(pattern, piece, number, at).filter(({ end }) => end <= number.length);
    for (const { end, says } of found) step([...pieces, { piece, from: at, to: end, says }], end);
    const rest = number.slice(at);
    if (begins(piece, rest)) walks.push({ pieces, end: { kind: 'begun' } });
    else if (found.length === 0) walks.push({ pieces, end: { kind: 'wrong', at: at + longestBegun(piece, rest) } });
  };
  step([], 0);
  return walks;
};

const longestBegun = (piece: NumberPiece, rest: string): number => {
  let length = 0;
  while (length < rest.length && begins(piece, rest.slice(0, length + 1))) length += 1;
  return length;
};

interface Walked {
  readonly maker: Maker;
  readonly pattern: NumberPattern;
  readonly walk: Walk;
  readonly ofAnother: boolean;
}

const kinds = ['whole', 'begun', 'wrong'] as const;

/**
 * Those that come to most: a whole number before one begun before one that breaks off, and of those the furthest. A named maker's before others', of the slot that is
 * entered before others, with its check digit right before one with it wrong, more pieces before fewer. What breaks off at its first sign is none.
 */
const likeliest = (walks: readonly Walked[], slot: SlotId | null): readonly Walked[] => {
  const reach = ({ walk: { end } }: Walked): number => (end.kind === 'wrong' ? end.at : Number.POSITIVE_INFINITY);
  const saysOf = ({ walk }: Walked) => Object.assign({}, ...walk.pieces.map(({ says }) => says)) as Walk['pieces'][number]['says'];
  const order = (one: Walked): readonly number[] => {
    const { slot: of, check } = saysOf(one);
    return [
      kinds.indexOf(one.walk.end.kind),
      one.ofAnother ? 1 : 0,
      slot === null || of === undefined || of === slot ? 0 : 1,
      check === undefined || check.stamped === check.wanted ? 0 : 1,
      -one.walk.pieces.length,
    ];
  };
  const begun = walks.filter((one) => reach(one) > 0);
  const kind = kinds.find((each) => begun.some(({ walk }) => walk.end.kind === each));
  const ofKind = begun.filter(({ walk }) => walk.end.kind === kind);
  const furthest = Math.max(...ofKind.map(reach));
  const right = ofKind.some((one) => order(one)[3] === 0);
  return ofKind
    .filter((one) => reach(one) === furthest && (kind !== 'whole' || !right || order(one)[3] === 0))
    .map((one) => ({ one, order: order(one) }))
    .sort((a, b) => a.order.map((each, i) => each - (b.order[i] as number)).find((each) => each !== 0) ?? 0)
    .map(({ one }) => one);
};

const soFar = (
  atlas: CompiledAtlas,
  { maker, pattern, walk, ofAnother }: Walked,
  text: string,
  typed: ReturnType<typeof signsOf>,
): ReadSoFar => {
  const place = (sign: number): number => typed[sign]?.at ?? text.length;
  /** Up to behind the sign before. */
  const behind = (sign: number): number => (sign === 0 ? 0 : (typed[sign - 1] as { at: number }).at + 1);
  const piecesSoFar: PieceSoFar[] = walk.pieces.map(({ piece, from, to, says }): PieceSoFar => {
    const wrong = says.check !== undefined && says.check.stamped !== says.check.wanted;
    return {
      from: place(from),
      to: behind(to),
      text: text.slice(place(from), behind(to)),
      name: nameOf(piece),
      means: meansOf(atlas, piece, says),
      state: wrong ? 'wrong' : 'read',
      wanted: wrong ? (says.check?.wanted ?? null) : null,
    };
  });
  const at = walk.pieces.at(-1)?.to ?? 0;
  const next = pattern.pieces.slice(walk.pieces.length);
  const { end } = walk;
  const [first, ...later] = next;
  const all = typed.length;
  if (end.kind === 'wrong') {
    // The whole of what is too much; else the piece that breaks off, from the sign it does at.
    const to = first === undefined ? all : Math.min(all, Math.max(end.at + 1, at + lengthOf(first)));
    if (end.at > at && first !== undefined) piecesSoFar.push(open(first, 'begun', text, place(at), behind(end.at)));
    piecesSoFar.push({
      from: place(end.at),
      to: behind(to),
      text: text.slice(place(end.at), behind(to)),
      name: first === undefined ? 'after the end' : nameOf(first),
      means: null,
      state: 'wrong',
      wanted: first === undefined ? 'nothing more' : wantedOf(first),
    });
  } else if (first !== undefined) {
    piecesSoFar.push(open(first, all > at ? 'begun' : 'to come', text, place(at), behind(Math.max(all, at)), all - at));
    for (const piece of later) piecesSoFar.push(open(piece, 'to come', text, text.length, text.length));
  }
  const says = Object.assign({}, ...walk.pieces.map((one) => one.says)) as Walk['pieces'][number]['says'];
  const made: Era = says.year === undefined ? { from: pattern.from, to: pattern.to } : { from: says.year, to: says.year };
  return {
    maker: maker.id,
    pattern: pattern.name,
    ofAnother,
    pieces: piecesSoFar,
    slot: says.slot ?? null,
    made: made.from === null && made.to === null ? null : made,
    month: says.month ?? null,
  };
};

const open = (piece: NumberPiece, state: 'begun' | 'to come', text: string, from: number, to: number, given = 0): PieceSoFar => {
  const [start, end] = state === 'to come' ? [text.length, text.length] : [from, to];
  return { from: start, to: end, text: text.slice(start, end), name: nameOf(piece), means: null, state, wanted: wantedOf(piece, given) };
};

/** How many signs a piece has; of one that may have several lengths the least. */
const lengthOf = (piece: NumberPiece): number => {
  switch (piece.kind) {
    case 'fixed':
      return bare(piece.text).length;
    case 'slot':
      return Math.min(...Object.keys(piece.codes).map((code) => bare(code).length));
    case 'digits':
    case 'letters':
      return piece.count;
    case 'year':
      return piece.figures;
    case 'month':
      return 2;
    default:
      return 1;
  }
};

const partSoFar = (atlas: CompiledAtlas, part: Part): PartSoFar => ({
  part: part.id,
  name: part.name,
  slot: part.slot,
  maker: part.maker,
  models: modelsOf(atlas, part)
    .slice(0, mostModels)
    .map((model) => ({ id: model.id, name: model.name, built: builtIn(atlas, model) })),
  supersededBy: supersededBy(atlas, part),
});

/** When a model was built; one without years was built in its family's, where those are known. */
const builtIn = (atlas: CompiledAtlas, model: Model): Era | null => {
  const { from, to } = model.from === null && model.to === null ? (atlas.families.get(model.family) ?? model) : model;
  return from === null && to === null ? null : { from, to };
};

const supersededBy = (atlas: CompiledAtlas, part: Part): PartSoFar['supersededBy'] => {
  const last = lastSuccessorOf(atlas, part);
  return last === part ? null : { part: last.id, name: last.name, number: last.numbers[0] ?? null };
};

/** O5: the models a number nobody lists may be of, as far as the rest of the plate tells. */
const mayBeOf = (atlas: CompiledAtlas, text: string, { feature, sheet }: NonNullable<Asked['entry']>): NumberSoFar['mayBeOf'] => {
  const slot = atlas.features.get(feature)?.slot;
  if (slot === undefined) return [];
  const others = sheet.observations.filter((one) => one.feature !== feature);
  const typed = { id: asId<ObservationId>('typed so far'), slot, feature, value: { kind: 'mark', text }, sure: { kind: 'seen' } } as const;
  const models = unlistedNumber(atlas, { ...sheet, observations: [...others, typed] })?.models ?? new Set();
  return atlas.data.models.filter(({ id }) => models.has(id)).map(({ id, name }) => ({ id, name }));
};
