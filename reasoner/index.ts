export * from './atlas/atlas.ts';
export * from './fits/fit.ts';
export * from './fits/rule.ts';
export * from './ids.ts';
export * from './sheet/sheet.ts';
export * from './truth.ts';
export * from './verdict/verdict.ts';
