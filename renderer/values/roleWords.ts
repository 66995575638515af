import type { Role } from '../../reasoner/index.ts';

/** What a role means for the name, in one place. */
export const roleWords: Record<Role, string> = {
  names: 'carries the name',
  option: 'catalogued option',
  service: 'service part',
};
