/** How an option of a choice is said after "has", where its name alone would not be: by a feature's whole id, or by what follows its slot. */
const sentences: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'compressor-housing-outlet-form': {
    bead: 'a hose bead at the outlet',
    flange: 'a two-bolt flange at the outlet',
    groove: 'a clamp groove at the outlet',
  },
  'volute-hand': {
    anticlockwise: 'a volute that runs anticlockwise seen from the compressor end',
    clockwise: 'a volute that runs clockwise seen from the compressor end',
  },
  'clamp-profile': {
    none: 'no clamp rim',
    'shallow-38': 'a shallow clamp rim with 38° flanks',
    'deep-38': 'a deep clamp rim with 38° flanks',
    'deep-44': 'a deep clamp rim with 44° flanks',
  },
  'compressor-wheel-look': {
    cast: 'a cast look with parting lines at the hub',
    milled: 'a milled look with cutter paths',
    'cast-shot': 'a dull, cast and shot-peened look',
  },
  'compressor-wheel-nose': { hex: 'a hexagon nut', 'twin-flat': 'a nut with two flats', collar: 'a collar nut' },
  'compressor-wheel-nut-hand': { right: 'a right-hand nut', left: 'a left-hand nut' },
  'compressor-wheel-back': { full: 'a full back disc', scalloped: 'a back scalloped between the blades' },
  'turbine-wheel-back': { full: 'a full back disc', scalloped: 'a back scalloped between the blades' },
  rotation: {
    anticlockwise: 'blades for anticlockwise rotation seen from the compressor end',
    clockwise: 'blades for clockwise rotation seen from the compressor end',
  },
  'bearing-housing-oil-drain': {
    'two-bolt': 'a two-bolt flange for the oil drain',
    'four-bolt': 'a four-bolt flange for the oil drain',
    spigot: 'a spigot for the oil drain hose',
  },
  'bearing-housing-rib-pattern': {
    straight: 'straight ribs',
    fan: 'ribs in a fan',
    ring: 'ribs joined by a ring',
    smooth: 'no ribs',
  },
  'bearing-housing-bored-for': { journal: 'a bore made for a journal set', cartridge: 'a bore made for a ball-bearing cartridge' },
  'bearing-housing-plate-rivet': {
    '2.5': 'plate holes for 2.5 mm rivets',
    '3': 'plate holes for 3 mm rivets',
    screws: 'plate holes for drive screws',
  },
  'bearing-set-kind': { journal: 'plain journal bearings', cartridge: 'ball bearings in a cartridge' },
  'bearing-set-seat-kind': { journal: 'a seat made for a journal set', cartridge: 'a seat made for a ball-bearing cartridge' },
  'bearing-set-thrust': {
    'split-ring': 'a split thrust ring',
    'full-ring': 'a full thrust ring',
    'in-cartridge': 'its thrust taken by the cartridge',
  },
  'shaft-made-for': {
    journal: 'a running surface made for a journal set',
    cartridge: 'a running surface made for a ball-bearing cartridge',
  },
  'shaft-thread-hand': { right: 'a right-hand stub thread', left: 'a left-hand stub thread' },
  'weld-pattern': {
    'plain-step': 'a plain step for the weld',
    'hollow-step': 'a step with a hollow behind it for the weld',
    'long-step': 'a long step for the weld',
    cone: 'a cone for the weld',
  },
  'heat-shield-form': { pressed: 'a form pressed from sheet', turned: 'a form turned from a casting' },
  'nameplate-fixing': { 'factory-rivets': 'factory rivets', 'replaced-rivets': 'replaced rivets', glued: 'glue instead of rivets' },
  'nameplate-rivet': { '2.5': 'holes for 2.5 mm rivets', '3': 'holes for 3 mm rivets', screws: 'holes for drive screws' },
  'turbine-wheel-cutback': { none: 'no cutback', half: 'a cutback of about half', strong: 'a strong cutback' },
  'turbine-wheel-entry': { single: 'tips cut for single entry', twin: 'tips cut for twin entry' },
  'turbine-wheel-weld': { 'electron-beam': 'a narrow and even electron-beam weld', friction: 'a friction weld with an upset ring' },
  'turbine-wheel-hub-shape': {
    hexagon: 'a hexagon hub nose',
    triangle: 'a rounded triangle for its hub nose',
    'twin-flat': 'a hub nose with two flats',
    round: 'a round hub nose',
  },
  'turbine-housing-entry': { single: 'a single entry', twin: 'a twin entry' },
  'turbine-housing-flange': {
    square: 'a square inlet flange with four bolts',
    oblong: 'an oblong inlet flange with four bolts',
    wedge: 'a wedge-shaped inlet flange with three bolts',
    round: 'a round clamped inlet flange',
  },
};

/** Features whose options are said alike: a thread, the bolts or screws of a joint, the way it is held together. */
const said = (id: string, slot: string, name: string, option: string, called: string): string | undefined => {
  const short = id.slice(slot.length + 1);
  const listed = (sentences[id] ?? sentences[short])?.[option];
  if (listed !== undefined) return listed;
  const at = / (at|to) .*$/.exec(name)?.[0] ?? '';
  switch (short) {
    case 'nut-thread':
    case 'oil-feed':
    case 'thread':
      return `an ${called} ${short === 'nut-thread' ? 'thread in its nut' : name}`;
    case 'bolt':
      return option === 'none' ? `no bolts${at}` : `${called} bolts${at}`;
    case 'core-screw':
    case 'screw':
      return option === 'none' ? `no screws${at}` : `${called} screws${at}`;
    case 'joining':
      return `a ${option === 'bolted' ? 'bolted' : 'V-band'} joint${at}`;
    default:
      return undefined;
  }
};

/** What the pack format calls `said` of an option; metals need none. */
export const saidOf = (feature: { readonly id: string; readonly slot: string; readonly name: string }, option: string, called: string) => {
  const found = said(feature.id, feature.slot, feature.name, option, called);
  return found === undefined ? {} : { said: found };
};
