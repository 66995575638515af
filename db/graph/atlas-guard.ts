import type { Guard, Reader } from '../driver/driver.ts';
import type { Trouble } from '../trouble.ts';

/** Changes with every pack that is loaded, changed or taken out, and with every entry of the journal. */
const state = `select json_array((select json_group_array(json_array(id, hash, loaded_at)) from (select * from packs order by id)), (select max(n) from journal))`;

/** That the atlas is still the one that was read. */
export const atlasStands = async ({ all }: Reader, refusal: Trouble): Promise<Guard> => {
  const [found] = await all<{ state: string }>(`select (${state}) as state`);
  return { sql: `select (${state}) = ?`, params: [found?.state], refusal };
};
