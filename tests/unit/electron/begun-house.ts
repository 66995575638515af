import { type OpenHouse, openHouse } from '../../../electron/desk/open-house.ts';
import { beginAtlas } from '../../../electron/desk/shipped-packs.ts';

/** A data folder opened as the program opens it, and begun with every pack of a folder where it holds none yet. */
export const begunHouse = async (data: string, packs: string, tell: (line: string) => void = () => undefined): Promise<OpenHouse> => {
  const house = await openHouse(data, packs, tell);
  if (!house.ok) return house;
  const begun = await beginAtlas(house.value.store, packs, 'invented', tell);
  if (begun.ok || begun.trouble.code === 'already-begun') return house;
  await house.value.close();
  return begun;
};

/** The same, and closed again: for a program that is to find it filled. */
export const beginFolder = async (data: string, packs: string): Promise<void> => {
  const house = await begunHouse(data, packs);
  if (!house.ok) throw new Error(house.trouble.sentence);
  await house.value.close();
};
