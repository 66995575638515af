import type { CompiledAtlas } from '../compile/compiled.ts';
import type { PairFit } from '../fits/work/pair-fit.ts';
import type { WorkPlan } from '../fits/work/work.ts';
import type { FeatureId } from '../ids.ts';
import { capital, list } from '../plain/text.ts';
import type { JointNeed } from '../unit/joint-need.ts';

/** What a replacement needs at one joint, in a whole sentence: the joint, what is to be done, on which part, and how long it takes (S1). */
export const needSentence = (atlas: CompiledAtlas, need: JointNeed): string => {
  const joint = capital(need.joint.data.name);
  const [best] = need.found;
  switch (need.fit) {
    case 'drops in':
      return `${joint} drops in.`;
    case 'measure and choose':
      return `${joint} goes together for some pairs only: measure both parts and choose${orWork(atlas, need, best)}.`;
    case 'after work':
      return need.worksDiffer
        ? `${joint} goes together after work with every ${need.other.data.name} it may be; which work, depends on that. The least is to ${worksIn(atlas, need, best)}.`
        : `${joint} goes together after work: ${worksIn(atlas, need, best)}.`;
    case 'depends':
      return `${joint}: it depends on which ${need.other.data.name} the unit has; ${list(
        need.found.map((fit, i) => `with ${i === 0 ? 'some' : 'others'} it ${dependingOn(atlas, need, fit)}`),
      )}.`;
    case 'not known':
      return `Whether ${need.joint.data.name} goes together is not known: ${need.inDoubt ? `the ${need.other.data.name} is in doubt` : missingIn(atlas, best)}.`;
    case 'not looked into':
      return `${joint} was not looked into: too many parts may be there.`;
    case 'will not fit':
      return `${joint} will not fit, and no operation the atlas knows makes it fit.`;
  }
};

const dependingOn = (atlas: CompiledAtlas, need: JointNeed, fit: PairFit): string => {
  switch (fit.kind) {
    case 'drops in':
      return 'drops in';
    case 'measure and choose':
      return 'goes together for some pairs only';
    case 'after work':
      return `goes together after work (${need.worksDiffer ? 'at the least ' : ''}${worksIn(atlas, need, fit)})`;
    case 'not known':
      return 'is not known';
    case 'will not fit':
      return 'will not fit';
  }
};

const orWork = (atlas: CompiledAtlas, need: JointNeed, fit: PairFit | undefined): string =>
  fit?.kind === 'measure and choose' && fit.plan !== null ? `, or ${planPhrase(atlas, need, fit.plan)}` : '';

const worksIn = (atlas: CompiledAtlas, need: JointNeed, fit: PairFit | undefined): string =>
  fit?.kind === 'after work' ? planPhrase(atlas, need, fit.plan) : '';

/** `open the backplate recess on the new compressor housing, 45 min`. */
const planPhrase = (atlas: CompiledAtlas, { slot, other, otherIsNew }: JointNeed, { works, after }: WorkPlan): string => {
  const done = works.map((work) => {
    const name = atlas.data.operations?.find(({ id }) => id === work.operation)?.name ?? work.operation;
    const isNew = work.slot === slot.data.id || otherIsNew;
    const on = work.slot === slot.data.id ? slot : other;
    return `${name} on the ${isNew ? 'new ' : ''}${on.data.name}, ${Math.round(work.hours * 60)} min`;
  });
  return `${list(done)}${after.verdict === 'after work' ? ', then measure both parts and choose' : ''}`;
};

const missingIn = (atlas: CompiledAtlas, fit: PairFit | undefined): string => {
  const missing = fit?.kind === 'not known' ? fit.missing.map((feature) => ofSlot(atlas, feature)) : [];
  return missing.length === 0 ? 'the atlas does not say enough' : `${list(missing)} ${missing.length === 1 ? 'is' : 'are'} not known`;
};

const ofSlot = (atlas: CompiledAtlas, id: FeatureId): string => {
  const feature = atlas.features.get(id);
  const slot = atlas.data.slots.find((each) => each.id === feature?.slot);
  return feature && slot ? `the ${slot.name}’s ${feature.name}` : id;
};
