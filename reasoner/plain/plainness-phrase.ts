import { reasonsPhrase } from './reasons-phrase.ts';

interface Plainness {
  readonly restsOn: 'the parts' | 'the unit’s own quarrel' | 'an absence or the plate';
  readonly minutes: number;
  readonly reasons: { readonly count: number; readonly exact: boolean };
}

/** How plainly a claim fails: `eleven independent reasons; the plainest lies in the parts and shows without strip-down`. */
export const plainnessPhrase = ({ restsOn, minutes, reasons }: Plainness): string => {
  const one = reasons.count === 1 && reasons.exact;
  const shows = minutes === 0 ? 'shows without strip-down' : `shows after ${minutes} min of strip-down`;
  return `${reasonsPhrase(reasons)}${one ? ': it' : '; the plainest'} ${where[restsOn]} and ${shows}`;
};

const where: Readonly<Record<Plainness['restsOn'], string>> = {
  'the parts': 'lies in the parts',
  'the unit’s own quarrel': 'is that the unit disagrees with itself,',
  'an absence or the plate': 'lies in the plate or in what is missing',
};
