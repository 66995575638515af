import type { FactDraft } from '../pack/draft.ts';
import { about, choice, count } from '../pack/facts.ts';

/** How two round faces are held together: bolts on a circle, or a clamp on two rims. */
export type Rim =
  | { readonly joining: 'bolted'; readonly bolts: number; readonly circle: number; readonly bolt: string }
  | { readonly joining: 'v-band'; readonly circle: number; readonly profile: string };

/** The rim's facts, by short feature name; the same on both faces it joins. */
export const rimFacts = (rim: Rim): Record<string, FactDraft> => ({
  joining: choice(rim.joining),
  'fixing-circle': about(rim.circle, 0.1),
  ...(rim.joining === 'bolted'
    ? { 'bolt-count': count(rim.bolts), bolt: choice(rim.bolt), 'clamp-profile': choice('none') }
    : { 'bolt-count': count(0), bolt: choice('none'), 'clamp-profile': choice(rim.profile) }),
});

/** A face with a spigot on one side and a recess on the other, both of this nominal diameter in mm. */
export interface Face {
  readonly pilot: number;
  readonly rim: Rim;
}
