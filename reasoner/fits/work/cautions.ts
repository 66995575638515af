import type { Operation } from '../../atlas/operation.ts';
import type { FitRuleKind } from '../../atlas/rule.ts';
import type { Fit } from '../fit.ts';

/**
 * What is said wherever the work or the running of it can hurt someone (F5). Common practice, no source, save where one is named. The sentences are part
 * of the answer and stand with it on screen, in print and in every file.
 */
export const fitCautions = {
  balance: 'The rotor must be balanced again after any work on a part that turns, and before it is run.',
  burst:
    'A wheel that rubs or bursts throws metal through thin walls. Nobody stands in the plane of the wheels when the unit is first run up.',
  rub: 'Turn the rotor by hand, pushed both ways axially, before it is run: it must not touch anywhere.',
  workshop:
    'Work on rotors and their housings belongs to a workshop equipped for it; a dimension in an atlas is no substitute for measuring the part.',
  oil: 'Check oil feed and drain before the first start. A bearing that runs dry fails in seconds, and hot oil burns.',
  water: 'A cartridge that needs water and gets none overheats when the engine stops. Do not run it without its water ports connected.',
  rotation: 'Parts made for the other direction of rotation loosen their own nut and pump nothing. Never run them together.',
  thread: 'A thread that starts by hand is not proof that it mates. Check pitch and hand with a gauge before tightening.',
  press: 'Press fits are heated and pressed: burns, flying parts. Use guards, and never a hammer on a shaft.',
  hot: 'The turbine side runs red hot. Changed clearances and joints there can leak exhaust gas or start a fire.',
  rules: 'A changed turbocharger may no longer meet the road, boat and emission rules where it is used.',
} as const;

export type FitCaution = keyof typeof fitCautions;

const ofRule: Readonly<Record<FitRuleKind, readonly FitCaution[]>> = {
  pilot: [],
  'running clearance': ['balance', 'burst', 'oil'],
  'press fit': ['press', 'balance'],
  'wheel to contour': ['rub', 'balance', 'burst'],
  thread: ['thread'],
  'bolt circle': [],
  'clamp profile': ['hot'],
  services: ['water', 'oil'],
  'direction of rotation': ['rotation'],
  same: [],
};

/** The cautions of a joint's rules, each once, in their order; a planned joint always ends with the workshop and the rules of the road. */
export const cautionsOfFit = (fit: Fit): readonly string[] =>
  said([...fit.findings.flatMap((finding) => ofRule[finding.rule.kind]), 'workshop', 'rules']);

/** What goes with an operation: its own cautions first. */
export const cautionsOfOperation = (operation: Operation): readonly string[] => [
  ...operation.cautions,
  ...said([
    ...(operation.turning ? (['balance', 'burst'] as const) : []),
    ...(operation.does.kind === 'ring' ? (['press'] as const) : []),
    'workshop',
  ]),
];

const said = (names: readonly FitCaution[]): readonly string[] => [...new Set(names)].map((name) => fitCautions[name]);
