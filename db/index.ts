export * from './answers.ts';
export { sheetText } from './packs/canonical.ts';
export type { Loaded, LoadStep } from './packs/load.ts';
export type { ExpandCode, Pack } from './packs/pack.ts';
export { readPack } from './packs/read.ts';
export type { JudgeFit } from './store/fits.ts';
export { openStore, type StoreOptions } from './store/open-store.ts';
export type { LoadPackOptions, PackSummary, Store } from './store/store.ts';
export * from './trouble.ts';
