import { atlasFile } from '../../../electron/desk/data-folder.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { openAtlas } from '../../../electron/desk/open-house.ts';
import { answered } from '../demo-desk.ts';
import { typedTexts } from './typed-texts.ts';

/** As many hits as the page of the atlas asks for. */
const limit = 60;

/** Of one search, ms: cpu time of all threads, and by the clock. */
export interface Searched {
  readonly text: string;
  readonly cpu: number;
  readonly clock: number;
}

/** Names, numbers and families looked up in an atlas after each key that is typed of them, through the desk's own call: sort by sort, each text once. */
export const searchesIn = async (folder: string): Promise<Readonly<Record<string, readonly Searched[]>>> => {
  const store = answered(await openAtlas(atlasFile(folder), true));
  const desk = openDesk(store);
  const searched = async (text: string): Promise<Searched> => {
    const [start, began] = [process.cpuUsage(), performance.now()];
    answered(await desk['atlas.search']({ text, limit }));
    const clock = performance.now() - began;
    const { user, system } = process.cpuUsage(start);
    return { text, cpu: (user + system) / 1000, clock };
  };
  const sorts = Object.entries(typedTexts(await store.atlas.read()));
  // The machine code of a program that has been up for a while is made.
  for (const [, texts] of sorts) for (const text of texts.filter((_, at) => at % 5 === 0)) await searched(text);
  const took: Record<string, Searched[]> = {};
  for (const [sort, texts] of sorts) {
    const of: Searched[] = [];
    for (const text of texts) of.push(await searched(text));
    took[sort] = of;
  }
  await store.close();
  return took;
};
