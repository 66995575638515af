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

/** Without case, spaces and signs, as a number is looked for. */
const compact = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();

/** Lines that have every word that was typed somewhere in what they say; a number is found however it is spaced. */
export const linesFound = (lines: readonly KeptStockLine[], typed: string): readonly KeptStockLine[] => {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return lines;
  const whole = compact(typed);
  return lines.filter((line) => {
    const said = [line.name, line.words, ...line.numbers, line.number, line.place, line.condition, line.note].join(' ').toLowerCase();
    return (
      words.every((word) => said.includes(word)) ||
      (whole !== '' && [line.number, ...line.numbers].some((number) => compact(number).includes(whole)))
    );
  });
};
