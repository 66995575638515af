import type { ModelDraft } from '../../pack/draft.ts';
import { mark, markOrBlank } from '../../pack/facts.ts';
import type { Shelf } from '../../pack/shelf.ts';
import type { Years } from '../../pack/years.ts';
import { firstAndLater } from '../house.ts';
import { faceSize, journalCore } from './core-patterns.ts';
import { type CompressorStyle, type Frame, stockModel, type TurbineStyle } from './family.ts';
import { runningSize } from './running-sizes.ts';
import { journalBearingHousing, journalSets, journalShaft, journalShields, merrowbyBackplate, unnamedJournalSet } from './shared-parts.ts';

interface JournalModel {
  readonly exducer: number;
  readonly years: Years;
  readonly frame: Frame;
  readonly housing: 0 | 1 | 2;
}

interface JournalFamily {
  readonly family: string;
  readonly generation: string | null;
  readonly years: Years;
  readonly compressor: CompressorStyle;
  readonly models: readonly JournalModel[];
}

const span = (from: number, to: number): Years => ({ from, to });

const frame = (id: string, name: string, inducer: number, style: TurbineStyle, years: Years): Frame => ({
  id,
  name,
  inducer,
  style,
  core: journalCore,
  years,
  // The older heads were not always marked.
  mark: years.from < 1970 ? markOrBlank(name) : mark(name),
});

const shearwaterTurbine: TurbineStyle = {
  trim: 71,
  tipRatio: 0.152,
  wheel: { blades: 12, cutback: { look: 'none', degrees: 0 }, hubShape: 'round', back: 'full' },
  flange: 'wedge',
  wastegate: false,
};
const dunlinTurbine: TurbineStyle = {
  trim: 73,
  tipRatio: 0.147,
  wheel: { blades: 11, cutback: { look: 'none', degrees: 0 }, hubShape: 'twin-flat', back: 'full' },
  flange: 'wedge',
  wastegate: false,
};
const ternTurbine: TurbineStyle = {
  trim: 75,
  tipRatio: 0.143,
  wheel: { blades: 11, cutback: { look: 'none', degrees: 0 }, hubShape: 'hexagon', back: 'scalloped' },
  flange: 'oblong',
  wastegate: false,
};
/** Ten blades, cut back by about half of what Petrel was to have. */
export const gannetTurbine: TurbineStyle = {
  trim: 77,
  tipRatio: 0.139,
  wheel: { blades: 10, cutback: { look: 'half', degrees: 10.5 }, hubShape: 'hexagon', back: 'scalloped' },
  flange: 'oblong',
  wastegate: true,
};

const shearwater1 = frame('shearwater-1', 'Shearwater first', 38.9, shearwaterTurbine, span(1953, 1972));
const shearwater2 = frame('shearwater-2', 'Shearwater second', 45.4, shearwaterTurbine, span(1953, 1972));
const dunlin1 = frame('dunlin-1', 'Dunlin small', 36.7, dunlinTurbine, span(1961, 1988));
const dunlin2 = frame('dunlin-2', 'Dunlin large', 41.3, dunlinTurbine, span(1961, 1988));
const fulmar1 = frame('fulmar-1', 'Fulmar', 56.2, shearwaterTurbine, span(1966, 1984));
const tern1 = frame('tern-1', 'Tern small', 42.8, ternTurbine, span(1971, 1997));
const tern2 = frame('tern-2', 'Tern large', 47.1, ternTurbine, span(1971, 1997));
export const gannet1 = frame('gannet-1', 'Gannet small', 50.6, gannetTurbine, span(1979, 2001));
export const gannet2 = frame('gannet-2', 'Gannet large', 56.9, gannetTurbine, span(1979, 2001));

export const gannetCompressor: CompressorStyle = {
  trim: 54,
  tipRatio: 0.063,
  blades: { fullBlades: 6, splitters: 6, nose: 'twin-flat', back: 'full' },
  looks: ['cast', 'cast-shot'],
  outletForm: 'bead',
};
export const ternCompressor: CompressorStyle = {
  trim: 52,
  tipRatio: 0.061,
  blades: { fullBlades: 6, splitters: 6, nose: 'hex', back: 'full' },
  looks: ['cast', 'cast', 'cast-shot'],
  outletForm: 'bead',
};

const journalFamilies: readonly JournalFamily[] = [
  {
    family: 'Shearwater',
    generation: null,
    years: span(1953, 1972),
    compressor: {
      trim: 47,
      tipRatio: 0.067,
      blades: { fullBlades: 11, splitters: 0, nose: 'hex', back: 'full' },
      looks: ['cast'],
      outletForm: 'bead',
    },
    models: [
      { exducer: 41, years: span(1953, 1966), frame: shearwater1, housing: 0 },
      { exducer: 46, years: span(1955, 1971), frame: shearwater1, housing: 1 },
      { exducer: 52, years: span(1958, 1972), frame: shearwater2, housing: 1 },
    ],
  },
  {
    family: 'Dunlin',
    generation: null,
    years: span(1961, 1988),
    compressor: {
      trim: 49,
      tipRatio: 0.064,
      blades: { fullBlades: 5, splitters: 5, nose: 'hex', back: 'full' },
      looks: ['cast', 'cast-shot'],
      outletForm: 'bead',
    },
    models: [
      { exducer: 38, years: span(1961, 1979), frame: dunlin1, housing: 0 },
      { exducer: 41, years: span(1961, 1983), frame: dunlin1, housing: 1 },
      { exducer: 44, years: span(1964, 1986), frame: dunlin2, housing: 0 },
      { exducer: 47, years: span(1968, 1988), frame: dunlin2, housing: 1 },
    ],
  },
  {
    family: 'Fulmar',
    generation: null,
    years: span(1966, 1984),
    compressor: {
      trim: 51,
      tipRatio: 0.066,
      blades: { fullBlades: 10, splitters: 0, nose: 'collar', back: 'full' },
      looks: ['cast'],
      outletForm: 'flange',
    },
    models: [
      { exducer: 58, years: span(1966, 1981), frame: fulmar1, housing: 0 },
      { exducer: 63, years: span(1970, 1984), frame: fulmar1, housing: 2 },
    ],
  },
  {
    family: 'Tern',
    generation: null,
    years: span(1971, 1997),
    compressor: ternCompressor,
    models: [
      { exducer: 44, years: span(1971, 1990), frame: tern1, housing: 0 },
      { exducer: 46, years: span(1971, 1994), frame: tern1, housing: 1 },
      { exducer: 49, years: span(1975, 1997), frame: tern2, housing: 0 },
      { exducer: 53, years: span(1980, 1997), frame: tern2, housing: 1 },
    ],
  },
  {
    family: 'Gannet',
    generation: 'gannet-journal',
    years: span(1979, 2001),
    compressor: gannetCompressor,
    models: [
      { exducer: 52, years: span(1979, 1993), frame: gannet1, housing: 0 },
      { exducer: 56, years: span(1979, 1996), frame: gannet1, housing: 1 },
      { exducer: 60, years: span(1984, 1996), frame: gannet2, housing: 0 },
      { exducer: 65, years: span(1987, 1996), frame: gannet2, housing: 1 },
    ],
  },
];

/** The five journal families, all on one bearing housing and one shaft. */
export const stockJournalBirds = (shelf: Shelf): readonly ModelDraft[] =>
  journalFamilies.flatMap(({ family, generation, years, compressor, models }) =>
    models.map((model) => {
      const id = `${family.toLowerCase()}-${runningSize(model.exducer)}`;
      const name = `${family} ${runningSize(model.exducer)}`;
      stockModel(shelf, { id, name, compressorOf: family, ...model }, compressor, journalCore, years);
      shelf.allow(id, 'names', journalBearingHousing, journalShaft);
      const [journalSet, laterSets] = firstAndLater(journalSets);
      shelf.allow(id, 'service', merrowbyBackplate('journal', faceSize(model.exducer)), journalSet, unnamedJournalSet, ...journalShields);
      for (const issue of laterSets) shelf.put(issue);
      return {
        id,
        name,
        family: family.toLowerCase(),
        generation,
        patternOf: null,
        from: model.years.from,
        to: model.years.to,
        source: 'merrowby-list',
      };
    }),
  );
