import path from 'node:path';
import type { Trouble } from '../bridge/contract.ts';
import type { RenderedFile } from './rendered.ts';

/** What to do about a start that failed, where this program can help. */
export const adviceFor = ({ code, place }: Trouble): string | null => {
  const folder = place === null ? '' : ` --data "${path.dirname(place)}"`;
  const putBack = `npm run kinplate -- restore newest --yes${folder}`;
  switch (code) {
    case 'database-damaged':
      return `To mend it: npm run kinplate -- mend${folder}. To put the newest backup back instead: ${putBack}`;
    case 'mend-unfinished':
      return `To finish mending: npm run kinplate -- mend${folder}`;
    case 'atlas-missing':
      return `To see which backups there are: npm run kinplate -- backups${folder}. To put the newest back: ${putBack}. To begin anew with an empty shelf: npm run kinplate -- anew --yes${folder}`;
    default:
      return null;
  }
};

/**
 * What the window shows when the atlas could not be opened: the message, no script, no style but the browser's own.
 * It is all of the window there is then, so no call can be made from it.
 */
export const faultPage = (trouble: Trouble): ReadonlyMap<string, RenderedFile> => {
  const advice = adviceFor(trouble);
  const html = `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width">
    <title>Kinplate could not start</title>
  </head>
  <body>
    <main>
      <h1>Kinplate could not start</h1>
      <p>${inHtml(trouble.sentence)}</p>
      ${trouble.place === null || trouble.sentence.includes(trouble.place) ? '' : `<p>It concerns: <code>${inHtml(trouble.place)}</code></p>`}
      ${advice === null ? '' : `<p>${inHtml(advice)}</p>`}
      <p>When this has been put right, start Kinplate again.</p>
    </main>
  </body>
</html>
`;
  return new Map([['/index.html', { type: 'text/html; charset=utf-8', body: new TextEncoder().encode(html) }]]);
};

const inHtml = (text: string): string => text.replace(/[&<>"']/g, (sign) => `&#${sign.codePointAt(0)};`);
