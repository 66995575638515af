// `npm start`: from a bare clone to an open window. Plain Node, no packages: it is what installs them.
//   npm start -- --data <folder>   keep the atlas and the sheets there (else $KINPLATE_DATA, else the user's data folder)
//   npm start -- --port <number>   a fixed port for the loopback window
//   npm start -- --browser         the loopback window even where Electron is there
//   npm start -- --address         only print the loopback address; open nothing
import path from 'node:path';
import { buildIfNeeded } from './build-if-needed.mjs';
import { electronBinary, fetchElectron, hasDisplay } from './find-electron.mjs';
import { checkNode, installPackages } from './packages.mjs';
import { runHost } from './run-host.mjs';
import { say } from './say.mjs';
import { root } from './sources.mjs';

const asked = process.argv.slice(2);
const takes = (flag) => {
  const at = asked.indexOf(flag);
  return at >= 0 && asked.splice(at, 1).length > 0;
};
const inBrowser = takes('--browser');
const addressOnly = takes('--address');

checkNode();
installPackages();
buildIfNeeded();

const electron = async () => {
  if (inBrowser || addressOnly || !hasDisplay()) return null;
  if (process.platform === 'linux' && process.getuid() === 0) {
    say('Electron keeps its sandbox only for an ordinary user, and this is root: using the loopback window.');
    return null;
  }
  const binary = electronBinary() ?? (await fetchElectron());
  if (binary === null) say('Electron’s binary is not here and could not be fetched: using the loopback window in the installed browser.');
  return binary;
};

const binary = await electron();
if (binary !== null) {
  const { code, opened } = await runHost(binary, [path.join(root, 'build', 'main.js'), ...asked]);
  // 3 is a start that was refused with its reason said (a damaged database): the other host could only say it again.
  if (opened || code === 0 || code === 3) process.exit(code);
  say('Electron did not start here: using the loopback window in the installed browser.');
}
const { code } = await runHost(process.execPath, [
  path.join(root, 'build', 'host.js'),
  ...(addressOnly || !hasDisplay() ? [] : ['--open']),
  ...asked,
]);
process.exit(code);
