import { mmPerInch } from '../../reasoner/plain/units.ts';
import { fixed, plain } from './figures.ts';
import type { LengthUnit } from './readSeen.ts';

/** Lengths, kept in mm, in the unit that was chosen. An inch takes two decimals more than a millimetre: a hundred-thousandth of it is a quarter of a thousandth of a millimetre. */

/** As it stands behind a figure, and in the head of a column of them. */
export const unitSign = (unit: LengthUnit): 'mm' | 'in' => (unit === 'inch' ? 'in' : 'mm');

export const lengthIn = (mm: number, unit: LengthUnit): number => (unit === 'inch' ? mm / mmPerInch : mm);

/** `57.12 mm`, `2.25 in`, `12.5°`. */
export const sayMeasure = (value: number, kind: 'mm' | 'deg', unit: LengthUnit): string =>
  kind === 'deg' ? `${plain(value, 3)}°` : `${bareLength(value, unit)} ${unitSign(unit)}`;

/** With as many decimals as it needs, and without its unit. */
export const bareLength = (mm: number, unit: LengthUnit): string => plain(lengthIn(mm, unit), unit === 'inch' ? 5 : 4);

/** To the thousandth of a millimetre, always as many places, so that columns line up; without its unit. */
export const sayLength = (mm: number, unit: LengthUnit): string => fixed(lengthIn(mm, unit), unit === 'inch' ? 5 : 3);

/** Without their unit, from the least to the greatest. */
export const saySpan = ({ least, greatest }: { readonly least: number; readonly greatest: number }, unit: LengthUnit): string => {
  const [from, to] = [sayLength(least, unit), sayLength(greatest, unit)];
  return from === to ? from : `${from} to ${to}`;
};
