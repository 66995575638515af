/**
 * What else the trade calls a slot, a feature or an option: for finding it by what somebody types or a seller writes. By id; an option
 * as `<feature>.<option>`. Common usage, in our own choice of words.
 */
const words: Readonly<Record<string, readonly string[]>> = {
  'compressor-housing': ['compressor cover', 'comp housing', 'cold side housing'],
  'compressor-wheel': ['impeller', 'comp wheel', 'cold side wheel'],
  backplate: ['seal plate'],
  'bearing-housing': ['centre housing', 'center housing'],
  'bearing-set': ['bearings'],
  shaft: ['rotor shaft'],
  'turbine-wheel': ['exhaust wheel', 'hot side wheel'],
  'heat-shield': ['heat shroud'],
  'turbine-housing': ['exhaust housing', 'hot side housing'],
  nameplate: ['plate', 'data plate', 'tag'],

  'compressor-housing-area-ratio': ['area ratio'],
  'compressor-housing-recirculation-slot': ['ported shroud'],
  'compressor-housing-inducer-contour': ['shroud bore at the inlet'],
  'compressor-wheel-full-blades': ['main blades', 'long blades'],
  'compressor-wheel-splitter-blades': ['splitters', 'short blades'],
  'compressor-wheel-inducer': ['eye diameter', 'minor diameter'],
  'compressor-wheel-exducer': ['major diameter', 'outside diameter'],
  'compressor-wheel-tip-height': ['blade height at the tip'],
  'bearing-housing-water-ports': ['water cooled', 'water connections'],
  'bearing-housing-oil-feed': ['oil inlet thread'],
  'bearing-set-kind.cartridge': ['ball bearing', 'ball bearings'],
  'bearing-set-kind.journal': ['journal bearing', 'journal bearings', 'plain bearings'],
  'shaft-running': ['journal size', 'bearing journal'],
  'nameplate-number': ['plate number', 'number on the plate'],
  'nameplate-trade-name': ['maker on the plate'],
  'nameplate-serial-text': ['serial', 'serial no'],
  'nameplate-year': ['made in', 'built in', 'date of make'],
  'turbine-wheel-cutback': ['clipped tips'],
  'turbine-wheel-exducer': ['outlet diameter of the wheel'],
  'turbine-housing-area-ratio': ['area ratio'],
  'turbine-housing-entry.twin': ['twin scroll', 'divided inlet'],
  'turbine-housing-entry.single': ['single scroll', 'undivided inlet'],
  'turbine-housing-wastegate': ['waste gate', 'internal wastegate'],
};

export const otherWords = (id: string): { readonly alsoCalled?: readonly string[] } => {
  const also = words[id];
  return also === undefined ? {} : { alsoCalled: also };
};

/** Every id there are other words for; a test holds them to things that exist. */
export const wordedIds: readonly string[] = Object.keys(words);
