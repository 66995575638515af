import type { BuildCost, FinishedSize, FitPoint, OperationId, PointKind } from '../../reasoner/index.ts';
import { type MoneyWriting, moneyText } from '../../reasoner/plain/money.ts';
import type { Words } from '../bridge/words.ts';
import { fixed, plain, roundedTo, signOfDecimals } from '../values/figures.ts';
import { lengthIn } from '../values/lengths.ts';
import type { LengthUnit } from '../values/readSeen.ts';

/** A size with its deviations, without its unit: `62.05 +0.03/0`, `57.4 ±0.1`. */
export const sayFinished = (size: Pick<FinishedSize, 'nominal' | 'lower' | 'upper'>, unit: LengthUnit): string => {
  const { nominal, lower, upper } = size;
  const say = (mm: number): string => bareSize(mm, unit);
  const signed = (value: number) => (value > 0 ? `+${say(value)}` : say(value));
  return lower === -upper ? `${say(nominal)} ±${say(upper)}` : `${say(nominal)} ${signed(upper)}/${signed(lower)}`;
};

/** The figures of a size set like a drawing’s: deviations signed, and with as many places as the finer of the two. */
export const figuresOf = (
  { nominal, lower, upper }: Pick<FinishedSize, 'nominal' | 'lower' | 'upper'>,
  unit: LengthUnit,
): {
  readonly nominal: string;
  readonly upper: string;
  readonly lower: string;
  readonly alike: boolean;
} => {
  const placesOf = (value: number): number => (bareSize(Math.abs(value), unit).split(/[.,]/)[1] ?? '').length;
  const places = Math.max(placesOf(upper), placesOf(lower));
  const signed = (value: number): string => (value === 0 ? '0' : `${value > 0 ? '+' : ''}${fixed(lengthIn(value, unit), places)}`);
  const alike = lower === -upper;
  return { nominal: bareSize(nominal, unit), upper: alike ? bareSize(upper, unit) : signed(upper), lower: signed(lower), alike };
};

/** To the thousandth of a millimetre, as a drawing has it. */
const bareSize = (mm: number, unit: LengthUnit): string => plain(lengthIn(mm, unit), unit === 'inch' ? 5 : 3);

/** Rounded so that less than all never reads as all, nor more than none as none. */
export const sayShare = (share: number): string => {
  const rounded = roundedTo(share * 100, 1);
  if (rounded === 100 && share < 1) return `over ${plain(99.9, 1)} %`;
  return rounded === 0 && share > 0 ? `under ${plain(0.1, 1)} %` : `${plain(rounded, 1)} %`;
};

export const sayHours = (hours: number): string => `${plain(hours, 2)} h`;

/** An amount as the shop writes its own money. @param how null where the shop did not say */
export const sayMoney = (amount: number, money: string | null, how: MoneyWriting | null): string =>
  money === null ? fixed(amount, 2) : moneyText(amount, money, how, signOfDecimals() === ',');

/** What the parts and the labour come to; what has no price is said, never left out. */
export const sayCost = (
  { atLeast, unpriced, money }: Pick<BuildCost, 'atLeast' | 'unpriced' | 'money'>,
  how: MoneyWriting | null,
): string => (atLeast === null ? 'no rates' : `${unpriced.length > 0 ? 'at least ' : ''}${sayMoney(atLeast, money, how)}`);

/** An operation by its id, where no fuller wording came with the answer. */
export const sayOperation = (operation: OperationId): string => operation.replaceAll('-', ' ');

export const pointNames: Readonly<Record<PointKind, string>> = {
  clearance: 'clearance',
  interference: 'interference',
  'radial clearance': 'clearance on the radius',
  'axial clearance': 'axial clearance',
  thread: 'thread',
  'hand of thread': 'hand of thread',
  'hole count': 'number of holes',
  'circle diameter': 'circle diameters',
  bolt: 'bolt',
  'clamp profile': 'clamp profile',
  service: 'oil or water',
  'direction of rotation': 'direction of rotation',
  agreement: 'must agree',
};

/** What is compared: `inducer diameter and inducer contour diameter`; where both parts have a feature of one name, whose: `weld preparation of shaft and turbine wheel`. */
export const sayCompared = (words: Pick<Words, 'feature' | 'featureName' | 'slotName'>, features: FitPoint['features']): string => {
  const names = [...new Set(features.map((feature) => words.featureName(feature)))];
  const slots = [...new Set(features.flatMap((feature) => words.feature(feature)?.slot ?? []))];
  return names.length === 1 && slots.length > 1
    ? `${names[0]} of ${slots.map((slot) => words.slotName(slot)).join(' and ')}`
    : names.join(' and ');
};

/** What a comparison without numbers comes to. */
export const sayMeeting = ({ verdict, thread }: Pick<FitPoint, 'verdict' | 'thread'>): string => {
  switch (verdict) {
    case 'drops in':
      return 'the same';
    case 'after work':
      return 'the same on some only';
    case 'not known':
      return 'not known';
    case 'will not fit':
      return thread?.nearMiss === true ? 'differs; may start by hand' : 'differs';
  }
};
