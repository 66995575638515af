import type { CompiledAtlas } from '../compile/compiled.ts';
import { descentGround, type LineNode, type LineStep, lineBack, nodeKey } from './descent-ground.ts';
import type { Choice, Ground, Kind, LinePlace, Subject, Topic } from './drill.ts';

type DescentTopic = Extract<Topic, { kind: 'descent' }>;

/** So many are put in order. */
const [fewest, most] = [3, 5];

/**
 * Put these in order of descent, earliest first. Right is every order in which nothing stands before what it came of, in any number of steps
 * of succession, descent or pattern. Where the atlas knows no line between two, either may stand first.
 */
export const descent: Kind<DescentTopic> = {
  make: (ground, topic, draw) => {
    const all = descentGround(ground, topic.family);
    const nodes = draw.shuffled(all).slice(0, fewest + draw.below(Math.min(most, all.length) - fewest + 1));
    if (nodes.length < fewest) return null;
    const order = inLine(ground, nodes);
    const joined = nodes.reduce((sum, late) => sum + nodes.filter((early) => lineBack(ground, late, early) !== null).length, 0);
    // Most pairs have to be joined by a line, or there is little to know.
    if (joined < nodes.length - 1) return null;
    const shuffled = draw.shuffled(nodes);
    // An order given away by how it is shown asks nothing.
    if (shuffled.every((node, i) => node === order[i])) return null;
    return {
      question: 'Put these in order of descent, the earliest first.',
      sheet: null,
      shown: [],
      respond: { kind: 'order' },
      choices: shuffled.map((node): Choice => ({ id: nodeKey(node), text: node.of.name, subject: subjectOf(node) })),
    };
  },

  judge: (ground, drill, response) => {
    const nodes = response.map((id) => nodeOf(ground, id));
    const wrongWay = nodes.flatMap((early, i) =>
      nodes.slice(i + 1).flatMap((late) => {
        const line = lineBack(ground, early, late);
        return line === null ? [] : [{ early, late, line }];
      }),
    );
    const [first] = wrongWay;
    const right = first === undefined;
    const order = inLine(
      ground,
      drill.choices.map(({ id }) => nodeOf(ground, id)),
    );
    const steps = right ? stepsOf(ground, order) : [];
    return {
      right,
      accepted: [order.map(nodeKey)],
      sentences: right
        ? ['Nothing stands before what it came of.', ...steps.map(sentenceOf)]
        : [
            ...wrongWay.slice(0, 2).map(({ early, late }) => `${early.of.name} stands before ${late.of.name}, but came after it.`),
            ...new Set(wrongWay.slice(0, 2).flatMap(({ line }) => [...line].reverse().map(sentenceOf))),
          ],
      showings: [],
      line: lineOf(ground, order),
      confused: first === undefined ? null : { asked: subjectOf(first.late), answered: subjectOf(first.early) },
    };
  },
};

const subjectOf = ({ kind, of }: LineNode): Subject => ({ kind, id: of.id, text: of.name });

const nodeOf = (atlas: CompiledAtlas, key: string): LineNode => {
  const [kind, id] = [key.slice(0, key.indexOf(':')), key.slice(key.indexOf(':') + 1)];
  const family = atlas.data.families.find((each) => each.id === id);
  const generation = atlas.data.generations.find((each) => each.id === id);
  if (kind === 'family' && family !== undefined) return { kind, of: family };
  if (kind === 'generation' && generation !== undefined) return { kind, of: generation };
  throw new Error(`a drill is about ${key}, which the atlas does not have`);
};

/** An order in which each stands after what it came of; of those free, the one that began first. */
const inLine = (ground: Ground, nodes: readonly LineNode[]): LineNode[] => {
  const left = [...nodes].sort((a, b) => (a.of.from ?? 0) - (b.of.from ?? 0) || (nodeKey(a) < nodeKey(b) ? -1 : 1));
  const order: LineNode[] = [];
  while (left.length > 0) {
    const next = left.findIndex((node) => left.every((other) => lineBack(ground, node, other) === null));
    if (next < 0) throw new Error('a line of descent runs in a circle');
    order.push(...left.splice(next, 1));
  }
  return order;
};

/** The steps along the line that joins these. */
const stepsOf = (ground: Ground, order: readonly LineNode[]): LineStep[] => {
  const steps = new Map<string, LineStep>();
  order.forEach((late, i) => {
    const lines = order.slice(0, i).flatMap((early) => [lineBack(ground, late, early) ?? []]);
    const [nearest = []] = lines.filter(({ length }) => length > 0).sort((one, other) => one.length - other.length);
    for (const step of [...nearest].reverse()) steps.set(`${nodeKey(step.from)} ${nodeKey(step.to)}`, step);
  });
  return [...steps.values()];
};

/** What was asked, and what stands between any two of it. */
const lineOf = (ground: Ground, asked: readonly LineNode[]): LinePlace[] => {
  const between = asked.flatMap((late) => asked.flatMap((early) => lineBack(ground, late, early) ?? []));
  const all = new Map([...asked, ...between.flatMap(({ from, to }) => [from, to])].map((node) => [nodeKey(node), node]));
  const keys = new Set(asked.map(nodeKey));
  return [...all].map(([key, { kind, of }]) => ({
    kind,
    id: of.id,
    family: kind === 'generation' ? of.family : of.id,
    asked: keys.has(key),
  }));
};

const sentenceOf = ({ from, to, how }: LineStep): string => `${to.of.name} ${how} ${from.of.name}.`;
