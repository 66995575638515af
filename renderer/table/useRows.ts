import { useEffect, useRef, useState } from 'react';
import type { Cell } from '../../electron/bridge/table-calls.ts';
import { desk } from '../bridge/desk.ts';

const chunk = 100;

/** The cells of rows as they were handed in, fetched a hundred rows at a time as they are wanted. */
export const useRows = (token: string, sheet: string | null, rows: readonly number[]): ReadonlyMap<number, readonly Cell[]> => {
  const held = useRef({ of: `${token} ${sheet}`, rows: new Map<number, readonly Cell[]>(), asked: new Set<number>() });
  const [, setCome] = useState(0);
  if (held.current.of !== `${token} ${sheet}`) held.current = { of: `${token} ${sheet}`, rows: new Map(), asked: new Set() };
  const wanted = [...new Set(rows.map((row) => Math.floor((row - 1) / chunk)))].join();
  useEffect(() => {
    const own = held.current;
    for (const at of wanted === '' ? [] : wanted.split(',').map(Number)) {
      if (own.asked.has(at)) continue;
      own.asked.add(at);
      void desk.ask('table.rows', { token, sheet, from: at * chunk + 1, count: chunk }).then((reply) => {
        if (!reply.ok) {
          own.asked.delete(at);
          return;
        }
        for (const [index, cells] of reply.value.rows.entries()) own.rows.set(at * chunk + 1 + index, cells);
        setCome((count) => count + 1);
      });
    }
  }, [token, sheet, wanted]);
  return held.current.rows;
};
