import { execFileSync } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** Loads the demo pack in a later edition, as the shop would, while no window is open: every turbine wheel of eleven blades turns out to have twelve. */
export const loadNewerEdition = (folder: string, data: string): void => {
  cpSync(path.resolve('seed-data/demo-pack'), folder, { recursive: true });
  const head = path.join(folder, 'pack.json');
  const { edition } = JSON.parse(readFileSync(head, 'utf8')) as { edition: string };
  writeFileSync(head, readFileSync(head, 'utf8').replace(edition, '2031-01-01'));
  const facts = path.join(folder, 'facts.csv');
  writeFileSync(
    facts,
    readFileSync(facts, 'utf8').replace(/^([^,]*,turbine-wheel-blades,)11,/gm, (_all, start: string) => `${start}12,`),
  );
  execFileSync(process.execPath, ['build/kinplate.js', 'pack', 'load', folder, '--data', data], { stdio: 'pipe' });
};
