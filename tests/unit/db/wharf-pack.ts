import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The pack of another shop, which calls what the small pack has by other ids; spoilt as a test wants it. */
export interface WharfPack {
  head: Record<string, unknown>;
  lists: Record<string, Record<string, unknown>[]>;
  parts: string[];
  facts: string[];
  allowed: string[];
  sheets: Record<string, unknown>[];
}

const source = 'wharf-notes';

export const wharfPack = (): WharfPack => ({
  head: {
    format: 'kinplate atlas pack',
    version: 1,
    id: 'wharf',
    title: 'The list of the Osterhal wharf',
    edition: '2026-02-01',
    invented: true,
    note: 'Every maker, name and figure in this pack is invented.',
  },
  lists: {
    sources: [{ id: source, title: 'Notes of the wharf', kind: 'invented' }],
    stages: [
      { id: 'received', name: 'as received', minutes: 0, after: [] },
      { id: 'stripped', name: 'core stripped', minutes: 30, after: ['received'] },
    ],
    slots: [
      { id: 'impeller', name: 'impeller', alsoCalled: ['compressor wheel'], group: 'core', stage: 'received', swapMinutes: 44 },
      { id: 'bearings', name: 'Bearing set', group: 'core', stage: 'stripped', swapMinutes: 15 },
    ],
    ports: [{ id: 'bearings-rim', slot: 'bearings', name: 'outside' }],
    features: [
      { id: 'imp-od', slot: 'impeller', name: 'diameter of the exducer', kind: 'measure', unit: 'mm', stage: 'received', minutes: 3 },
      { id: 'imp-blades', slot: 'impeller', name: 'number of full blades', kind: 'count', unit: 'blades', stage: 'received', minutes: 1 },
      { id: 'imp-colour', slot: 'impeller', name: 'colour of the back', kind: 'mark', stage: 'received', minutes: 1 },
      {
        id: 'brg-type',
        slot: 'bearings',
        name: 'bearing set kind',
        kind: 'choice',
        options: [
          { id: 'plain', name: 'journal bearings' },
          { id: 'ball', name: 'Ball-bearing cartridge' },
          { id: 'air', name: 'air bearings' },
        ],
        stage: 'stripped',
        minutes: 1,
        port: 'bearings-rim',
      },
    ],
    joints: [],
    makers: [{ id: 'osterhal', name: 'Osterhal', tradeNames: [], plateRule: false, grammar: null, source }],
    families: [
      {
        id: 'wharf-line',
        name: 'Wharf',
        maker: 'osterhal',
        from: 1980,
        to: null,
        descendsFrom: [],
        succeeds: [],
        patternOf: [],
        about: '',
        source,
      },
    ],
    generations: [],
    models: [{ id: 'wharf-1', name: 'Wharf 1', family: 'wharf-line', generation: null, patternOf: null, from: 1980, to: null, source }],
  },
  parts: [`w-imp,impeller,Wharf impeller,osterhal,OW 1,,,${source}`, `w-brg,bearings,Wharf bearings,osterhal,OW 2,,,${source}`],
  facts: ['w-imp,imp-od,51.2,-0.05,0.05,,', 'w-imp,imp-blades,7,,,,', 'w-brg,brg-type,plain|ball,,,,'],
  allowed: ['wharf-1,impeller,w-imp,names', 'wharf-1,bearings,w-brg,service'],
  sheets: [
    {
      id: 'wharf-sheet',
      title: 'From the wharf',
      story: '',
      kind: 'found',
      claimed: null,
      claimedMaker: null,
      observations: [
        { id: 'o1', slot: 'impeller', feature: 'imp-blades', value: { kind: 'count', from: 7, to: 7 }, sure: { kind: 'seen' } },
        { id: 'o2', slot: 'bearings', feature: 'brg-type', value: { kind: 'choice', option: 'plain' }, sure: { kind: 'seen' } },
      ],
      unseen: [{ slot: 'impeller', feature: 'imp-od', why: 'no instrument' }],
      absent: [],
      chosen: {},
    },
  ],
});

/** @param folder is made; what lists it does not bring are empty */
export const writeWharf = (folder: string, { head, lists, parts, facts, allowed, sheets }: WharfPack): string => {
  mkdirSync(join(folder, 'sheets'), { recursive: true });
  const write = (file: string, text: string) => writeFileSync(join(folder, file), text);
  write('pack.json', JSON.stringify(head, null, 2));
  for (const [list, entries] of Object.entries(lists)) write(`${list}.json`, JSON.stringify(entries, null, 2));
  write('parts.csv', `${['id,slot,name,maker,numbers,pattern_of,supersedes,source', ...parts].join('\n')}\n`);
  write('facts.csv', `${['part,feature,value,lower,upper,code,source', ...facts].join('\n')}\n`);
  write('allowed.csv', `${['model,slot,part,role', ...allowed].join('\n')}\n`);
  for (const sheet of sheets) write(`sheets/${sheet.id}.json`, JSON.stringify(sheet, null, 2));
  return folder;
};
