/** Light, dark, or as the system says. */
export const themes = ['system', 'light', 'dark'] as const;
export type Theme = (typeof themes)[number];

const key = 'kinplate.theme';

export const rememberedTheme = (): Theme => {
  const kept = storage()?.getItem(key);
  return themes.find((theme) => theme === kept) ?? 'system';
};

export const applyTheme = (theme: Theme): void => {
  document.documentElement.dataset.theme = theme;
  storage()?.setItem(key, theme);
  window.dispatchEvent(new Event('kinplate-theme'));
};

/** Calls back when the colours in force may have changed: by the switch, by the system, or because paper is made. */
export const onThemeChange = (changed: () => void): (() => void) => {
  const system = window.matchMedia('(prefers-color-scheme: dark)');
  const paper = window.matchMedia('print');
  const onPaper = () => {
    document.documentElement.toggleAttribute('data-paper', paper.matches);
    changed();
  };
  system.addEventListener('change', changed);
  paper.addEventListener('change', onPaper);
  window.addEventListener('kinplate-theme', changed);
  return () => {
    system.removeEventListener('change', changed);
    paper.removeEventListener('change', onPaper);
    window.removeEventListener('kinplate-theme', changed);
  };
};

/** Storage may be switched off in a browser; the window works without it. */
function storage(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}
