import '@fontsource/barlow/400.css';
import '@fontsource/barlow/400-italic.css';
import '@fontsource/barlow/600.css';
import '@fontsource/barlow-semi-condensed/500.css';
import '@fontsource/barlow-semi-condensed/600.css';
import './look/tokens.css';
import './look/base.css';
import './look/screen.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { nameWindow } from './bench/thisWindow.ts';
import { applyTheme, rememberedTheme } from './look/theme.ts';
// Last, so that what paper leaves out wins over every screen's own rules.
import './look/print.css';

applyTheme(rememberedTheme());
await nameWindow();

const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element #root to draw the window in');
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
