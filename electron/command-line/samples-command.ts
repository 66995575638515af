import { asId, type Fact, type FeatureSamples, type PartId, type Seen } from '../../reasoner/index.ts';
import { samplesOfPart } from '../desk/samples.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { dataOption, formatOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate samples`: what was seen and measured of a part in the shop's cases, and what that says. */
export const samplesCommand = command({
  name: 'samples',
  words: { shown: '<part>', least: 1, most: 1, otherwise: 'samples takes the id of a part of the atlas.' },
  options: { ...formatOption, ...dataOption },
  help: ['what was seen and measured of a part in the shop’s cases: how many,', 'mean, spread, limits, what stands apart'],
  run: ({ words: [part = ''], options: { format, data } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const found = await samplesOfPart(store, asId<PartId>(part));
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      const { samples, features } = found.value;
      terminal.out(
        format === 'json'
          ? jsonText(found.value)
          : [
              ...features.flatMap(({ word, ...one }) => linesOf(one, word.fact)),
              ...samples.map(({ number, entry, feature, value, u, how, who, out }) =>
                line(
                  'sample',
                  feature,
                  textOf(value),
                  u ?? '',
                  `case ${number}, ${entry}`,
                  how,
                  who,
                  out === null ? '' : `taken out by ${out.who || 'nobody said'}`,
                ),
              ),
            ].join(''),
      );
      return samples.some(({ out }) => out === null) ? exitCodes.stands : exitCodes.open;
    }),
});

const line = (...cells: readonly (string | number)[]): string => `${cells.join('\t')}\n`;

const linesOf = (samples: FeatureSamples, word: Fact | null): readonly string[] => {
  if (samples.kind === 'seen')
    return samples.tallies.map(({ value, sheets }) =>
      line('seen', samples.feature, textOf(value), sheets.length, word === null ? 'disagree' : ''),
    );
  const { n, mean, spread, limits, noLimits, outliers } = samples.statistics;
  const apart = (outliers ?? []).flatMap((at) => samples.specimens[at] ?? []);
  return [
    line(
      'measured',
      samples.feature,
      n,
      figure(mean),
      spread === null ? 'not known' : figure(spread),
      limits === null ? 'not known' : `${figure(limits.lower)} to ${figure(limits.upper)}`,
      noLimits ?? '',
    ),
    ...apart.map(({ sheet, value }) => line('apart', samples.feature, figure(value), `sheet ${sheet}`)),
  ];
};

/** More figures than any instrument tells apart, and none that say nothing. */
const figure = (value: number): string => String(Number(value.toFixed(6)));

const textOf = (value: Seen): string | number => {
  switch (value.kind) {
    case 'count':
      return value.from === value.to ? value.from : `${value.from} to ${value.to}`;
    case 'measure':
      return figure(value.value);
    case 'choice':
      return value.option;
    case 'presence':
      return value.present ? 'there' : 'not there';
    case 'mark':
      return value.text === null ? 'no letters' : `“${value.text}”`;
  }
};
