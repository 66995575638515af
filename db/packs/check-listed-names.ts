import type { Atlas } from '../../reasoner/index.ts';
import type { Entries, PackModel } from '../atlas/lists.ts';
import type { FaultOfName } from '../read/asked.ts';
import type { Faults } from '../read/faults.ts';
import type { Lookups, PlaceOf } from './lookups.ts';

/**
 * A grammar that cannot read a model name its own maker lists is a fault (A4), and so are two models of such a maker under one name, of which only one
 * could ever be read. Of the pack's own models it is said beside their names; of another pack's, whose maker stands here, beside the grammar.
 */
export const checkListedNames = (
  files: Entries,
  beside: Atlas,
  find: Lookups,
  faultOf: FaultOfName,
  placeOf: PlaceOf,
  faults: Faults,
): void => {
  const makerOf = ({ family }: PackModel) => {
    const maker = find.family.get(family)?.maker;
    return maker === undefined || maker === null ? undefined : find.maker.get(maker);
  };
  const own = files.models;
  const makers = new Map<string, number>(files.makers.map(({ id }, index) => [id, index]));
  const first = new Map<string, string>();
  for (const model of beside.models) {
    const maker = makerOf(model);
    if (maker?.grammar == null) continue;
    first.set(`${maker.id} ${model.name}`, model.id);
    const index = makers.get(maker.id);
    const fault = index === undefined ? null : faultOf(maker, model.name);
    if (index !== undefined && fault !== null)
      faults.add(
        placeOf('makers', [index, 'grammar']),
        `a grammar that does not read ${JSON.stringify(model.name)}, a model of another pack`,
        fault.expected,
      );
  }
  own.forEach((model, index) => {
    const maker = makerOf(model);
    if (maker?.grammar == null) return;
    const place = placeOf('models', [index, 'name']);
    const fault = faultOf(maker, model.name);
    if (fault !== null) faults.add(place, fault.found, fault.expected);
    const key = `${maker.id} ${model.name}`;
    const before = first.get(key);
    if (before === undefined) first.set(key, model.id);
    else
      faults.add(
        place,
        `the name ${JSON.stringify(model.name)} a second time`,
        `a name of its own (${JSON.stringify(before)} has this one)`,
      );
  });
};
