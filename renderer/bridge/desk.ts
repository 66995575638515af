import type { Bridge } from '../../electron/bridge/contract.ts';
import type {} from '../../electron/bridge/window.ts';

/** The one way out of the window. Both hosts put the bridge on `window.desk` before any script of ours runs. */
export const desk: Bridge = window.desk;
