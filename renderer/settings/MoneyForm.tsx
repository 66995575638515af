import { useId, useState } from 'react';
import type { KeptSetting, ShopMoney } from '../../db/answers.ts';
import { moneyText, readAmount } from '../../reasoner/plain/money.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { fixed, withSign } from '../values/figures.ts';
import { SettingForm } from './SettingForm.tsx';
import { useSetting } from './useSetting.ts';

const names = {
  code: 'Three letters',
  written: 'Written as',
  before: 'It stands',
  decimals: 'Digits after the point',
  hour: 'An hour’s work',
} as const;

/** In what money prices are, how it is written, and what an hour costs. */
export function MoneyForm({ read }: { readonly read: KeptSetting<ShopMoney | null> }) {
  const id = useId();
  const { comma } = useShop().settings.measures;
  const unsaid: ShopMoney = { code: '', written: '', before: false, decimals: 2, hour: null };
  const [typed, setTyped] = useState(() => typedOf(read.value ?? unsaid));
  const [fault, setFault] = useState<string | null>(null);
  const held = useSetting('money', { ...read, value: read.value ?? unsaid }, (money) => setTyped(typedOf(money)));
  const change = (part: Partial<typeof typed>) => setTyped({ ...typed, ...part });
  const code = typed.code.trim().toUpperCase();
  const hour = typed.hour.trim() === '' ? null : readAmount(typed.hour);
  const written = (): ShopMoney | null => {
    const wrong = !/^[A-Z]{3}$/.test(code)
      ? 'Write the money in three letters, as ISO 4217 has them.'
      : typed.hour.trim() !== '' && hour === null
        ? `“${typed.hour.trim()}” is no amount. Write it like ${fixed(41.5, 2)}, or leave it empty where it is not known.`
        : null;
    setFault(wrong);
    return wrong === null ? { code, written: typed.written.trim(), before: typed.before, decimals: typed.decimals, hour } : null;
  };
  return (
    <SettingForm
      title="Money"
      held={held}
      names={names}
      say={(field, value) =>
        field === 'before' ? (value ? 'before the figures' : 'after the figures') : value === null ? '' : String(value)
      }
      read={written}
    >
      <div className="setting-fields">
        <label htmlFor={`${id}-code`}>Three letters (ISO 4217)</label>
        <input
          id={`${id}-code`}
          className="field short"
          maxLength={3}
          autoComplete="off"
          spellCheck={false}
          value={typed.code}
          onChange={(event) => change({ code: event.target.value })}
        />
        <label htmlFor={`${id}-written`}>Written as</label>
        <input
          id={`${id}-written`}
          className="field short"
          maxLength={20}
          autoComplete="off"
          placeholder="as the letters"
          value={typed.written}
          onChange={(event) => change({ written: event.target.value })}
        />
        <label htmlFor={`${id}-before`}>It stands</label>
        <select
          id={`${id}-before`}
          className="field"
          value={typed.before ? 'before' : 'after'}
          onChange={(event) => change({ before: event.target.value === 'before' })}
        >
          <option value="after">after the figures</option>
          <option value="before">before the figures</option>
        </select>
        <label htmlFor={`${id}-decimals`}>Digits after the point</label>
        <select
          id={`${id}-decimals`}
          className="field"
          value={typed.decimals}
          onChange={(event) => change({ decimals: Number(event.target.value) })}
        >
          {[0, 2, 3].map((many) => (
            <option key={many} value={many}>
              {many === 0 ? 'none' : many}
            </option>
          ))}
        </select>
        <label htmlFor={`${id}-hour`}>An hour’s work</label>
        <input
          id={`${id}-hour`}
          className="field number"
          inputMode="decimal"
          autoComplete="off"
          placeholder="not known"
          value={typed.hour}
          onChange={(event) => change({ hour: event.target.value })}
        />
      </div>
      {/^[A-Z]{3}$/.test(code) && (
        <p className="small soft">
          So it reads:{' '}
          {moneyText(1234.5, code, { code, written: typed.written.trim(), before: typed.before, decimals: typed.decimals }, comma)}
        </p>
      )}
      {fault !== null && (
        <p className="trouble" role="alert">
          {fault}
        </p>
      )}
    </SettingForm>
  );
}

const typedOf = ({ code, written, before, decimals, hour }: ShopMoney) => ({
  code,
  written,
  before,
  decimals,
  hour: hour === null ? '' : withSign(String(hour)),
});
