import { useState } from 'react';
import { applyTheme, rememberedTheme, themes } from './theme.ts';

export function ThemeSwitch() {
  const [theme, setTheme] = useState(rememberedTheme);
  return (
    <select
      className="field"
      aria-label="Colours"
      value={theme}
      onChange={(event) => {
        const next = themes.find((one) => one === event.target.value) ?? 'system';
        applyTheme(next);
        setTheme(next);
      }}
    >
      <option value="system">auto</option>
      <option value="light">day</option>
      <option value="dark">night</option>
    </select>
  );
}
