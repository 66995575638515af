import type { Bridge } from './contract.ts';

declare global {
  interface Window {
    /** Put there by the preload under Electron and by `page-desk.js` on the loopback host, before the window's own script runs. */
    readonly desk: Bridge;
  }
}
