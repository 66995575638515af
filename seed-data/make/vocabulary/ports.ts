import type { Port } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/** Mating faces: `<slot>/<what it meets>`. */
const port = (slot: string, meets: string, name: string): Plain<Port> => ({ id: `${slot}-to-${meets}`, slot, name });

export const ports: readonly Plain<Port>[] = [
  port('compressor-housing', 'backplate', 'recess and rim for the backplate'),
  port('compressor-housing', 'compressor-wheel', 'contour over the compressor wheel'),
  port('compressor-wheel', 'compressor-housing', 'blade tips'),
  port('compressor-wheel', 'shaft', 'bore and nut'),
  port('backplate', 'compressor-housing', 'spigot and rim for the compressor housing'),
  port('backplate', 'bearing-housing', 'spigot for the bearing housing'),
  port('bearing-housing', 'backplate', 'recess for the backplate'),
  port('bearing-housing', 'bearing-set', 'bearing bore and water jacket'),
  port('bearing-housing', 'turbine-housing', 'spigot and rim for the turbine housing'),
  port('bearing-housing', 'heat-shield', 'heat shield seat'),
  port('bearing-housing', 'nameplate', 'plate seat'),
  port('bearing-set', 'bearing-housing', 'outside of the bearing set'),
  port('bearing-set', 'shaft', 'bore of the bearing set'),
  port('shaft', 'bearing-set', 'journals or inner races'),
  port('shaft', 'compressor-wheel', 'stub and its thread'),
  port('shaft', 'turbine-wheel', 'weld face'),
  port('turbine-wheel', 'shaft', 'weld recess'),
  port('turbine-wheel', 'heat-shield', 'hub'),
  port('turbine-wheel', 'turbine-housing', 'blade tips'),
  port('heat-shield', 'bearing-housing', 'rim of the shield'),
  port('heat-shield', 'turbine-wheel', 'hole for the hub'),
  port('turbine-housing', 'bearing-housing', 'recess and rim for the bearing housing'),
  port('turbine-housing', 'turbine-wheel', 'contour over the turbine wheel'),
  port('nameplate', 'bearing-housing', 'rivet holes'),
];
