import type { BuildCost, FinishedSize, FitPoint, OperationId, PointKind, Span } from '../../reasoner/index.ts';

/** A length in mm to the thousandth, always three places, so that columns line up. */
export const sayLength = (mm: number): string => {
  const text = Math.abs(mm).toFixed(3);
  return mm < 0 && Number(text) !== 0 ? `−${text}` : text;
};

export const saySpan = ({ least, greatest }: Span): string =>
  sayLength(least) === sayLength(greatest) ? sayLength(least) : `${sayLength(least)} to ${sayLength(greatest)}`;

/** A size with its deviations, mm: `62.05 +0.03/0`, `57.4 ±0.1`. */
export const sayFinished = ({ nominal, lower, upper }: Pick<FinishedSize, 'nominal' | 'lower' | 'upper'>): string => {
  const signed = (value: number) => (value === 0 ? '0' : value > 0 ? `+${plain(value)}` : `−${plain(-value)}`);
  return lower === -upper ? `${plain(nominal)} ±${plain(upper)}` : `${plain(nominal)} ${signed(upper)}/${signed(lower)}`;
};

/** The figures of a size set like a drawing's: deviations signed, and with as many places as the finer of the two. */
export const figuresOf = ({
  nominal,
  lower,
  upper,
}: Pick<FinishedSize, 'nominal' | 'lower' | 'upper'>): {
  readonly nominal: string;
  readonly upper: string;
  readonly lower: string;
  readonly alike: boolean;
} => {
  const placesOf = (value: number): number => (plain(Math.abs(value)).split('.')[1] ?? '').length;
  const places = Math.max(placesOf(upper), placesOf(lower));
  const signed = (value: number): string => (value === 0 ? '0' : `${value > 0 ? '+' : '−'}${Math.abs(value).toFixed(places)}`);
  const alike = lower === -upper;
  return { nominal: plain(nominal), upper: alike ? plain(upper) : signed(upper), lower: signed(lower), alike };
};

/** Rounded so that less than all never reads as all, nor more than none as none. */
export const sayShare = (share: number): string => {
  const rounded = Math.round(share * 1000) / 10;
  if (rounded === 100 && share < 1) return 'over 99.9 %';
  return rounded === 0 && share > 0 ? 'under 0.1 %' : `${rounded} %`;
};

export const sayHours = (hours: number): string => `${plain(hours, 2)} h`;

export const sayMoney = (amount: number, money: string | null): string => `${amount.toFixed(2)}${money === null ? '' : ` ${money}`}`;

/** What the parts and the labour come to; what has no price is said, never left out. */
export const sayCost = ({ atLeast, unpriced, money }: Pick<BuildCost, 'atLeast' | 'unpriced' | 'money'>): string =>
  atLeast === null ? 'no rates' : `${unpriced.length > 0 ? 'at least ' : ''}${sayMoney(atLeast, money)}`;

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
  service: 'service',
  'direction of rotation': 'direction of rotation',
  agreement: 'agreement',
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

const plain = (value: number, places = 3): string => String(Number(value.toFixed(places)));
