import type { Conflict, Member, Name } from '../../reasoner/index.ts';

/** A name by what it says, never by its id. A core that several models share is one name; any other speaks of each of its models. */
export const meanings = (name: Name): string[] => {
  const housings = name.housings
    .map((housing) => ` ${housing.slot}:${'family' in housing.origin ? housing.origin.family : housing.origin.kind}`)
    .sort()
    .join('');
  switch (name.rung) {
    case 'parts':
      return ['parts'];
    case 'family':
      return [`family ${name.family} ${name.text.startsWith('core of') ? 'core' : 'whole'}`];
    case 'pattern family':
    case 'family parts':
      return [`${name.rung} ${name.family}`];
    case 'hybrid':
    case 'core':
      return [`${name.rung} ${[...name.models].sort().join('+')}${housings}`];
    default:
      return name.models.map((model) => `${name.rung} ${model}`);
  }
};

export const membersOf = (conflict: Conflict, name: Name | null): string =>
  conflict.members
    .map((member) => memberOf(member, name))
    .sort()
    .join(', ');

const memberOf = (member: Member, name: Name | null): string => {
  switch (member.kind) {
    case 'observation':
      return `observation ${member.observation}`;
    case 'absent':
      return `absent ${member.slot}`;
    case 'joint':
      return `joint ${member.joint}`;
    case 'rule':
      if (member.name !== name?.id) throw new Error(`a demand of ${member.name} in a conflict of ${name?.id ?? 'the unit'}`);
      return `demand ${member.slot}`;
  }
};
