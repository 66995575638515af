import type { Fact, Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { ChainFinding } from '../fits/chain.ts';
import type { Fit, FitPoint, FitVerdict, PointKind, Span } from '../fits/fit.ts';
import type { InHand } from '../fits/judge-joint.ts';
import type { Known } from '../fits/known.ts';
import type { FinishedSize, Refusal, Work } from '../fits/work/work.ts';
import type { FeatureId } from '../ids.ts';
import { reach, size } from '../plain/sizes.ts';
import { capital, list } from '../plain/text.ts';
import { factsPhrase, optionName } from '../words/phrases.ts';

/** `the compressor housing’s backplate recess diameter`. */
export const featurePhrase = (atlas: CompiledAtlas, id: FeatureId): string => {
  const feature = atlas.features.get(id);
  const slot = atlas.data.slots.find((each) => each.id === feature?.slot);
  return feature && slot ? `the ${slot.name}’s ${feature.name}` : id;
};

const spanText = ({ least, greatest }: Span): string => (least === greatest ? size(least) : `${size(least)} to ${size(greatest)}`);

const mm = (span: Span): string => `${spanText(span)} mm`;

/** `62.05 +0.03/0`, `18.2 0/−0.021`, `57.4 ±0.1`: a size with its deviations, mm. */
export const toleranced = ({ nominal, lower, upper }: Pick<FinishedSize, 'nominal' | 'lower' | 'upper'>): string => {
  const signed = (value: number): string => (value === 0 ? '0' : value > 0 ? `+${size(value)}` : `−${size(-value)}`);
  return lower === -upper ? `${size(nominal)} ±${size(upper)}` : `${size(nominal)} ${signed(upper)}/${signed(lower)}`;
};

const knownPhrase = (atlas: CompiledAtlas, id: FeatureId, known: Known | undefined): string => {
  const feature = atlas.features.get(id);
  if (known === undefined || feature === undefined) return 'not known';
  switch (known.kind) {
    case 'measured':
      return `measured ${size(known.value)} ±${reach(known.u)}`;
    case 'measure':
      return spanText({ least: known.nominal + known.lower, greatest: known.nominal + known.upper });
    case 'choice':
      return list(
        known.anyOf.map((option) => optionName(feature, option)),
        'or',
      );
    case 'count':
      return known.from === known.to ? String(known.from) : `${known.from} to ${known.to}`;
    case 'presence':
      return known.present ? 'yes' : 'no';
    case 'mark':
      return factsPhrase(feature, [known as Fact]);
    case 'not known':
      return 'not known';
  }
};

const asksFor: Readonly<Record<PointKind, string>> = {
  clearance: 'clearance',
  interference: 'interference',
  'radial clearance': 'clearance on the radius',
  'axial clearance': 'axial clearance',
  thread: 'thread',
  'hand of thread': 'hand of thread',
  'hole count': 'number of holes',
  'circle diameter': 'difference of circle diameters',
  bolt: 'bolt',
  'clamp profile': 'clamp profile',
  service: 'what is needed and what is offered',
  'direction of rotation': 'direction of rotation',
  agreement: 'agreement',
};

/** One comparison in words, with its numbers. */
export const pointSentence = (atlas: CompiledAtlas, point: FitPoint, factOf: (feature: FeatureId) => Known | undefined): string => {
  const [first, second] = point.features as readonly [FeatureId, FeatureId];
  const both = `${featurePhrase(atlas, first)} (${knownPhrase(atlas, first, factOf(first))}) and ${featurePhrase(atlas, second)} (${knownPhrase(atlas, second, factOf(second))})`;
  const what = `${capital(asksFor[point.what])} of ${both}`;
  if (point.verdict === 'not known') {
    return `${what}: not known, because ${list(point.missing.map((feature) => featurePhrase(atlas, feature)))} ${point.missing.length === 1 ? 'is' : 'are'} not known${
      point.found ? ' closely enough' : ''
    }.`;
  }
  if (point.found && point.asked) {
    const share = point.share === undefined || point.verdict !== 'after work' ? '' : `; ${percent(point.share)} of pairs are within`;
    return `${what}: ${mm(point.found)}, asked for ${mm(point.asked)}${share}.`;
  }
  const near = point.thread?.nearMiss === true ? ' They may start by hand all the same; they do not mate.' : '';
  switch (point.verdict) {
    case 'drops in':
      return `${what}: the same.`;
    case 'after work':
      return `${what}: the same on some good examples only; look before they are put together.`;
    case 'will not fit':
      return `${what}: not the same.${near}`;
  }
};

/** Rounded so that less than all never reads as all, nor more than none as none. */
export const percent = (share: number): string => {
  const rounded = Math.round(share * 1000) / 10;
  if (rounded === 100 && share < 1) return 'more than 99.9 %';
  return rounded === 0 && share > 0 ? 'less than 0.1 %' : `${rounded} %`;
};

export const workSentence = (atlas: CompiledAtlas, work: Work): string => {
  const operation = atlas.data.operations?.find(({ id }) => id === work.operation);
  const part = atlas.parts.get(work.part);
  const sizes = work.sizes.map(
    (each) =>
      `${featurePhrase(atlas, each.feature)} to ${toleranced(each)} mm (now ${spanText(each.from)}, takes ${spanText(each.removes)} mm)`,
  );
  const made = work.changes
    .filter(({ feature }) => !work.sizes.some((each) => each.feature === feature) && !work.metal.some((each) => each.feature === feature))
    .map(({ feature, fact }) => `${featurePhrase(atlas, feature)} becomes ${knownPhrase(atlas, feature, fact)}`);
  const metal = work.metal.map(
    (each) => `${featurePhrase(atlas, each.feature)} is left with ${size(each.leaves)} mm where ${size(each.mustLeave)} must be left`,
  );
  const doubt =
    work.missing.length === 0
      ? []
      : [`first measure ${list(work.missing.map((feature) => featurePhrase(atlas, feature)))}, which must allow it`];
  const told = [...sizes, ...made, ...metal, ...doubt];
  return `${capital(operation?.name ?? work.operation)} on the ${part?.name ?? work.part}: ${told.join('; ')}. ${size(work.hours)} h.`;
};

/** Why an operation does not help, to stand after its name. */
export const refusalPhrase = (atlas: CompiledAtlas, because: Refusal): string => {
  const feature = featurePhrase(atlas, because.feature);
  switch (because.kind) {
    case 'not this part':
      return `cannot be done to this part: ${feature}`;
    case 'wrong way':
      return `works the wrong way on ${feature}`;
    case 'some are past it':
      return `some parts are past the finished size of ${feature} already; measure this one`;
    case 'too coarse':
      return `holds ${feature} within ${size(because.tolerance)} mm where ${size(because.window)} mm is asked`;
    case 'too much':
      return `would take ${size(because.removes)} mm off ${feature}, and may take ${size(because.most)} mm`;
    case 'not enough metal':
      return `would leave ${size(because.leaves)} mm of ${feature} where ${size(because.mustLeave)} mm must be left`;
    case 'ring too thin':
      return `needs a ring of ${size(because.wall)} mm at ${feature}; the thinnest that stands is ${size(because.least)} mm`;
    case 'off the land':
      return `the circle would run off the land at ${feature}`;
    case 'old holes in the way':
      return `the old holes at ${feature} leave ${size(because.metal)} mm where ${size(because.mustLeave)} mm must be left`;
    case 'holes too close':
      return `the new holes leave ${size(because.metal)} mm between each other where ${size(because.mustLeave)} mm must be left`;
    case 'not offered':
      return `the shop does not make ${feature} to what the other part has`;
    case 'nothing to work to':
      return `there is no size to work to: ${feature} is not known, or not one value`;
    case 'no tolerance':
      return because.sentence;
  }
};

const verdictWords: Readonly<Record<Exclude<FitVerdict, 'after work'>, string>> = {
  'drops in': 'drops in',
  'will not fit': 'will not fit',
  'not known': 'is not known',
};

/** The parts of a joint that works are done to, in its order. */
export const partsWorked = (works: readonly Pick<Work, 'slot'>[], parts: readonly [Part, Part]): readonly Part[] =>
  parts.filter((part) => works.some(({ slot }) => slot === part.slot));

/**
 * A joint in words: the verdict first, then the comparisons that tell why. `facts` are the sizes the fit was judged by.
 * @param worked those of its parts that are worked on for it (F4)
 */
export const jointSentences = (
  atlas: CompiledAtlas,
  fit: Fit,
  verdict: FitVerdict,
  worked: readonly Part[],
  parts: readonly [Part, Part],
  facts: InHand,
): string[] => {
  const joint = atlas.joints.find((each) => each.data.id === fit.joint);
  const [a, b] = parts;
  const how =
    verdict !== 'after work'
      ? verdictWords[verdict]
      : worked.length === 0
        ? 'goes together for some pairs only: measure both parts and choose'
        : `goes together after work on ${list(worked.map(({ name }) => `the ${name}`))}`;
  const factOf = (feature: FeatureId): Known | undefined => facts.get(feature) ?? a.facts[feature] ?? b.facts[feature];
  const telling =
    fit.verdict === 'drops in' ? [] : fit.findings.flatMap(({ points }) => points).filter((point) => point.verdict === fit.verdict);
  return [
    `${capital(joint?.data.name ?? fit.joint)} (${a.name}, ${b.name}): ${how}.`,
    ...telling.map((point) => pointSentence(atlas, point, factOf)),
  ];
};

const chainWords: Readonly<Record<FitVerdict, string>> = {
  'drops in': 'holds',
  'after work': 'holds for some parts only, which have to be measured and chosen',
  'will not fit': 'does not hold',
  'not known': 'is not known closely enough',
};

export const chainSentence = (atlas: CompiledAtlas, name: string, leaves: string, finding: ChainFinding): string => {
  const head = `${capital(name)}`;
  if (finding.numbers === null) {
    return `${head}: not known, because ${list(finding.missing.map((feature) => featurePhrase(atlas, feature)))} ${finding.missing.length === 1 ? 'is' : 'are'} not known.`;
  }
  const { worst, rss, share } = finding.numbers;
  return `${head} ${chainWords[finding.verdict]}: ${leaves} of ${mm(worst)} at worst (${mm(rss)} by root sum square), asked for ${mm(finding.asked)}; ${percent(share)} of stacks are within.`;
};

export { capital, list, reach, size };
