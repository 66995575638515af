import type { Reading } from '../answer/verdict.ts';
import type { Grammar, GrammarToken, Maker } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { fullName } from '../compile/name-texts.ts';
import { readName } from '../grammar/read-name.ts';
import type { MakerId } from '../ids.ts';
import { asPattern } from '../plain/as-pattern.ts';
import { toRoman } from '../plain/roman.ts';
import { capital, list } from '../plain/text.ts';
import type { Draw } from './draw.ts';
import type { Choice, Drill, Ground, Kind, Showing, Topic } from './drill.ts';
import { listedFor, nameToCarry, partAt } from './units.ts';

type GrammarTopic = Extract<Topic, { kind: 'grammar' }>;

/** Whether one name is to be found among four that are none, or the one that is none among names. */
const questions = {
  name: (maker: string) => `Which of these can be a name of ${maker}?`,
  none: (maker: string) => `Which of these can be no name of ${maker}?`,
} as const;

/**
 * Real or no name: texts made by changing the tokens of real names, read by the maker's grammar (N6). A text is a name when the grammar reads it
 * whole and none of its demands is broken, whether or not the atlas lists the model.
 */
export const grammar: Kind<GrammarTopic> = {
  make: (ground, topic, draw) => {
    const maker = ground.makers.get(topic.maker);
    const rules = maker?.grammar ?? null;
    if (maker === undefined || rules === null) return null;
    const real = ground.data.models.filter(({ family }) => ground.families.get(family)?.maker === maker.id).map((model) => model.name);
    const words = ground.data.makers.flatMap(
      (each) => each.grammar?.tokens.flatMap(({ reads }) => (reads.kind === 'word' ? reads.words : [])) ?? [],
    );
    const [names, none] = [new Set<string>(), new Set<string>()];
    for (let throws = 0; throws < 200 && (names.size < 3 || none.size < 3); throws += 1) {
      const model = draw.any(real);
      if (model === undefined) return null;
      const tokens = tokensOf(rules, model);
      if (tokens === null) continue;
      const changed = draw.chance(0.25) ? tokens : changeOf(tokens, words, draw);
      if (changed === null) continue;
      const text = changed.map(({ token, text: as }, i) => (i === 0 ? as : token.before + as)).join('');
      const into = isName(readName(ground, text, maker.id)) ? names : none;
      if (into.size < 3) into.add(text);
    }
    if (names.size < 3 || none.size < 3) return null;
    const asked = draw.chance(0.5) ? 'name' : 'none';
    const [odd, rest] = asked === 'name' ? [names, none] : [none, names];
    return {
      question: questions[asked](maker.name),
      sheet: null,
      shown: [],
      respond: { kind: 'one' },
      choices: draw
        .shuffled([...[...odd].slice(0, 1), ...rest])
        .map((text): Choice => ({ id: text, text, subject: { kind: 'text', id: text, text } })),
    };
  },

  judge: (ground, drill, [chosen]) => {
    const maker = makerOf(ground, drill);
    const wanted = drill.question === questions.name(maker.name);
    const readings = drill.choices.map((choice) => ({ choice, reading: readName(ground, choice.text, maker.id) }));
    const accepted = readings.filter(({ reading }) => isName(reading) === wanted).map(({ choice }) => choice);
    const mine = readings.find(({ choice }) => choice.id === chosen) as (typeof readings)[number];
    const right = accepted.some(({ id }) => id === chosen);
    const others = right
      ? readings.filter(({ choice }) => choice.id !== chosen)
      : readings.filter(({ choice }) => accepted.includes(choice));
    return {
      right,
      accepted: accepted.map(({ id }) => [id]),
      sentences: [mine, ...others].flatMap(({ choice, reading }) => sayReading(ground, maker, choice.text, reading)),
      showings: showingOf(
        ground,
        maker,
        [mine, ...others].map(({ reading }) => reading),
      ),
      confused: right || accepted[0] === undefined ? null : { asked: accepted[0].subject, answered: mine.choice.subject },
    };
  },
};

const isName = ({ verdict }: Reading): boolean => verdict === 'a model of the atlas' || verdict === 'well formed, not in the atlas';

/** The maker is in the topic, which is the drill's own; so is the grammar asked about. */
const makerOf = (atlas: CompiledAtlas, { topic }: Drill): Maker => {
  const maker = atlas.makers.get(topic.slice(topic.indexOf(':') + 1) as MakerId);
  if (maker === undefined) throw new Error(`a drill is about ${topic}, which the atlas does not have`);
  return maker;
};

interface Piece {
  readonly token: GrammarToken;
  readonly text: string;
}

/** A model's name cut into the tokens it was made of, by trying each in turn. */
const tokensOf = ({ tokens }: Grammar, text: string): Piece[] | null => {
  const from = (index: number, rest: string, read: readonly Piece[]): Piece[] | null => {
    const token = tokens[index];
    if (token === undefined) return rest === '' ? [...read] : null;
    const start = read.length === 0 ? '' : token.before;
    if (rest.startsWith(start)) {
      const found = patternOf(token).exec(rest.slice(start.length));
      if (found !== null) {
        const whole = from(index + 1, rest.slice(start.length + found[0].length), [...read, { token, text: found[0] }]);
        if (whole !== null) return whole;
      }
    }
    return token.optional ? from(index + 1, rest, read) : null;
  };
  return from(0, text, []);
};

const patternOf = ({ reads }: GrammarToken): RegExp => {
  switch (reads.kind) {
    case 'word':
      return new RegExp(
        `^(?:${[...reads.words]
          .sort((a, b) => b.length - a.length)
          .map(asPattern)
          .join('|')})`,
      );
    case 'whole number':
      return /^\d+/;
    case 'roman numeral':
      return /^[IVXLCDM]+/;
    case 'letters':
      return new RegExp(`^\\p{L}{${reads.length}}`, 'u');
    case 'sign':
      return new RegExp(`^(?:${asPattern(reads.sign)})+`);
  }
};

/** One token left out, put in, written otherwise or joined otherwise. Whether what comes of it is a name, the grammar says. */
const changeOf = (pieces: readonly Piece[], words: readonly string[], draw: Draw): Piece[] | null => {
  const at = draw.below(pieces.length);
  const piece = pieces[at] as Piece;
  const change = draw.pick(['write otherwise', 'write otherwise', 'leave out', 'put in', 'join otherwise', 'change places'] as const);
  const changed = [...pieces];
  switch (change) {
    case 'leave out':
      if (pieces.length < 2) return null;
      changed.splice(at, 1);
      return changed;
    case 'put in': {
      const word = draw.any(words);
      if (word === undefined) return null;
      changed.push({ token: { ...piece.token, before: ' ' }, text: word });
      return changed;
    }
    case 'join otherwise':
      if (at === 0) return null;
      changed[at] = { ...piece, token: { ...piece.token, before: piece.token.before === ' ' ? '-' : ' ' } };
      return changed;
    case 'change places':
      if (at === 0 || pieces.length < 2) return null;
      changed[at] = { token: piece.token, text: (pieces[at - 1] as Piece).text };
      changed[at - 1] = { token: (pieces[at - 1] as Piece).token, text: piece.text };
      return changed;
    case 'write otherwise': {
      const text = otherwise(piece, words, draw);
      if (text === null || text === piece.text) return null;
      changed[at] = { ...piece, text };
      return changed;
    }
  }
};

const otherwise = ({ token: { reads }, text }: Piece, words: readonly string[], draw: Draw): string | null => {
  switch (reads.kind) {
    case 'word':
      return draw.any(draw.chance(0.5) ? reads.words : words) ?? null;
    case 'whole number':
      return String(
        draw.chance(0.5)
          ? reads.from + draw.below(reads.to - reads.from + 1)
          : draw.pick([reads.to + 1 + draw.below(40), Math.max(1, reads.from - 1 - draw.below(20))]),
      );
    case 'roman numeral': {
      const number = reads.from + draw.below(reads.to - reads.from + 1);
      // The usual way, past the end, or with a sign four times over.
      return draw.pick([
        toRoman(number),
        toRoman(reads.to + 1 + draw.below(6)),
        `${toRoman(number).replace(/I*$/, '')}IIII`,
        String(number),
      ]);
    }
    case 'letters':
      return draw.chance(0.5) ? text.split('').reverse().join('') : `${text}${draw.pick([...'BDKMT'] as [string, ...string[]])}`;
    case 'sign':
      return reads.sign.repeat(draw.pick([reads.to, reads.to + 1]));
  }
};

/** What the grammar finds in a text, in words. */
const sayReading = (ground: Ground, maker: Maker, text: string, reading: Reading): string[] => {
  if (isName(reading)) {
    const named = (id: string): string => maker.grammar?.tokens.find((token) => token.id === id)?.name ?? id;
    const tokens = reading.tokens.map(({ token, text: as }) => `${named(token)} ${as}`);
    const listed = reading.model === null ? `; the atlas lists no such model, but ${maker.name} could have made the name` : '';
    return [`“${text}” reads ${list(tokens)}${listed}.`];
  }
  const near = reading.nearest.slice(0, 2).flatMap((id) => {
    const model = ground.models.get(id);
    return model === undefined ? [] : [fullName(ground, model)];
  });
  const faults = reading.faults.map((fault) => (/[.!?]$/.test(fault) ? fault : `${fault}.`));
  return [`“${text}” is no name of ${maker.name}: ${faults.join(' ')}${near.length === 0 ? '' : ` Nearest: ${list(near, 'or')}.`}`].map(
    capital,
  );
};

/** What the first token that promises a look promises, drawn from the nearest name that exists. */
const showingOf = (ground: Ground, maker: Maker, readings: readonly Reading[]): Showing[] => {
  for (const reading of readings) {
    const model = ground.models.get(reading.model ?? reading.nearest[0] ?? ('' as never));
    if (model === undefined || ground.families.get(model.family)?.maker !== maker.id) continue;
    for (const token of maker.grammar?.tokens ?? []) {
      for (const { feature: id } of token.promises) {
        const feature = ground.features.get(id);
        if (feature === undefined) continue;
        const slot = ground.slotNumber.get(feature.slot) as number;
        const [first] = [...(nameToCarry(ground, model).demands[slot] ?? listedFor(ground, model.id)[slot]?.keys() ?? [])];
        if (first === undefined) continue;
        return [{ slot: feature.slot, feature: id, sides: [{ label: fullName(ground, model), facts: partAt(ground, slot, first).facts }] }];
      }
    }
  }
  return [];
};
