import { describe, expect, test } from 'vitest';
import { compareModels, type ModelId } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

describe('[A3] two models side by side', () => {
  test('[A1] Petrel 17 and Skua 17 Cartridge: the turbine wheel’s blades, and what follows from the name', () => {
    const told = compareModels(demo, 'petrel-17-cartridge' as ModelId, 'skua-17-cartridge' as ModelId);
    const sizes = told.rows.filter(({ group, same }) => group === 'sizes and looks' && !same).map(({ feature }) => feature);
    expect(sizes).toContain('turbine-wheel-blades');
    expect(sizes).not.toContain('turbine-wheel-inducer');
    expect(told.rows.find(({ group, what }) => group === 'name' && what === 'family')?.same).toBe(false);
  });

  test('[A6] a model the atlas does not have is an error', () => {
    expect(() => compareModels(demo, 'petrel-17-cartridge' as ModelId, 'petrel-99' as ModelId)).toThrow(/no model petrel-99/);
  });
});
