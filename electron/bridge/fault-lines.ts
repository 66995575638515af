import type { Trouble } from './contract.ts';

/** A trouble as lines to print: its sentence, and below it every other fault that was found. A fault says itself where it stands, and none is said twice. */
export const faultLines = ({ sentence, all = [] }: Trouble): readonly string[] => [
  sentence,
  ...all.filter((one) => !sentence.includes(one.sentence)).map((one) => `  ${one.sentence}`),
];
