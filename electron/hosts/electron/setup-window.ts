import path from 'node:path';
import { BrowserWindow } from 'electron';
import { home } from './address.ts';

/** Opens the window. `build` is the folder that holds `preload.cjs`. */
export const openWindow = async (build: string, page = '/index.html'): Promise<BrowserWindow> => {
  const window = new BrowserWindow({
    width: 1360,
    height: 900,
    minWidth: 720,
    minHeight: 520,
    show: false,
    title: 'Kinplate',
    autoHideMenuBar: true,
    webPreferences: {
      preload: path.join(build, 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  });
  window.once('ready-to-show', () => window.show());
  await window.loadURL(`${home}${page}`);
  return window;
};
