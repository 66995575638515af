import { useCallback, useState } from 'react';
import type { KeptStockLine } from '../../db/answers.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';

/** The stock list as it stands, and how to ask for it anew. */
export const useStock = (): { readonly lines: readonly KeptStockLine[] | null; readonly trouble: string | null; refresh(): void } => {
  const [asking, setAsking] = useState(0);
  const asked = useAsk('stock.list', {}, 0, asking);
  const refresh = useCallback(() => setAsking((count) => count + 1), []);
  return { lines: latest(asked), trouble: asked.state === 'trouble' ? asked.trouble.sentence : null, refresh };
};
