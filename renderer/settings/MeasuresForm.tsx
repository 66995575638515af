import { useState } from 'react';
import type { KeptSetting, ShopMeasures } from '../../db/answers.ts';
import { remember } from '../look/preference.ts';
import { type LengthUnit, lengthUnits } from '../values/readSeen.ts';
import { SettingForm } from './SettingForm.tsx';
import { useSetting } from './useSetting.ts';

const names = { unit: 'Lengths', comma: 'Decimals' } as const;

/** How measures are shown. */
export function MeasuresForm({ read }: { readonly read: KeptSetting<ShopMeasures> }) {
  const [value, setValue] = useState(read.value);
  const held = useSetting('measures', read, setValue);
  return (
    <SettingForm
      title="Measures"
      held={held}
      names={names}
      say={(field, said) => (field === 'comma' ? (said ? 'with a comma' : 'with a point') : String(said))}
      read={() => {
        // Who says how the shop has it wants to see it so here too.
        remember('length unit', null);
        return value;
      }}
    >
      <fieldset className="setting-row">
        <legend>Lengths are shown in</legend>
        {lengthUnits.map((unit: LengthUnit) => (
          <label key={unit} className="tick">
            <input type="radio" name="shop-unit" checked={value.unit === unit} onChange={() => setValue({ ...value, unit })} /> {unit}
          </label>
        ))}
      </fieldset>
      <fieldset className="setting-row">
        <legend>Decimals are written with</legend>
        {[false, true].map((comma) => (
          <label key={String(comma)} className="tick">
            <input type="radio" name="shop-comma" checked={value.comma === comma} onChange={() => setValue({ ...value, comma })} />{' '}
            {comma ? 'a comma: 57,12' : 'a point: 57.12'}
          </label>
        ))}
      </fieldset>
      <p className="small soft">
        Whoever chooses mm or inch on a sheet keeps that choice on that computer. Both signs are read wherever a figure is typed. Reasons,
        reports and files keep millimetres and the point.
      </p>
    </SettingForm>
  );
}
