import { useId, useState } from 'react';
import type { KeptSetting, ShopPeople } from '../../db/answers.ts';
import { SettingForm } from './SettingForm.tsx';
import { useSetting } from './useSetting.ts';

const names = { names: 'Who works here' } as const;

/** Names that are offered wherever it is asked who looked, wrote or decided. */
export function PeopleForm({ read }: { readonly read: KeptSetting<ShopPeople> }) {
  const id = useId();
  const [typed, setTyped] = useState(read.value.names.join('\n'));
  const held = useSetting('people', read, (people) => setTyped(people.names.join('\n')));
  const written = (): ShopPeople => ({
    names: [
      ...new Set(
        typed
          .split('\n')
          .map((name) => name.trim().slice(0, 80))
          .filter((name) => name !== ''),
      ),
    ].slice(0, 100),
  });
  return (
    <SettingForm title="Who works here" held={held} names={names} say={(_, value) => value.join(', ')} read={written}>
      <div className="setting-fields">
        <label htmlFor={`${id}-names`}>Names, a line each</label>
        <textarea id={`${id}-names`} className="field" rows={4} value={typed} onChange={(event) => setTyped(event.target.value)} />
      </div>
      <p className="small soft">They are offered wherever it is asked who looked, wrote or decided. Any other name can still be written.</p>
    </SettingForm>
  );
}
