import { type Way, withId } from '../../changes/id-places.ts';
import type { Guard, Reader, Statement } from '../../driver/driver.ts';
import type { EditedList, TextSort } from '../seen.ts';
import { keptElsewhere } from './kept-rows.ts';

interface Texts {
  readonly of: TextSort;
  readonly select: string;
  readonly update: string;
  /** Where ids of a list stand in such a text. */
  readonly ways: { readonly [list: EditedList]: readonly Way[] };
}

const texts: readonly Texts[] = [
  {
    of: 'courses',
    select: 'select id as key, families as text from courses where families is not null order by id',
    update: 'update courses set families = ? where id = ?',
    ways: { families: [['*']] },
  },
  {
    of: 'templates',
    select: 'select name as key, matching as text from table_templates order by name',
    update: 'update table_templates set matching = ? where name = ?',
    ways: {
      makers: [['maker', 'id']],
      slots: [['slot'], ['columns', '*', 'slot']],
      features: [['columns', '*', 'features', '*']],
    },
  },
];

export interface KeptText {
  readonly of: TextSort;
  readonly key: string;
  readonly text: string;
}

export interface TextsHeld {
  readonly of: TextSort;
  readonly texts: readonly KeptText[];
  readonly guard: Guard;
}

/** The texts in which ids of a list may stand. */
export const readTexts = async (reader: Reader, list: EditedList): Promise<readonly TextsHeld[]> => {
  const held: TextsHeld[] = [];
  for (const { of, select } of texts.filter(({ ways }) => list in ways)) {
    const sql = `select (select json_group_array(json_array(key, text)) from (${select}))`;
    const [found] = await reader.all<{ text: string }>(`${sql} as text`);
    const read = found?.text ?? '[]';
    held.push({
      of,
      texts: (JSON.parse(read) as [string, string][]).map(([key, text]) => ({ of, key, text })),
      guard: { sql: `${sql} = ?`, params: [read], refusal: keptElsewhere },
    });
  }
  return held;
};

/** The text as it names one entry of a list where it named another; the very same where it named none. */
export const textNaming = ({ of, text }: Pick<KeptText, 'of' | 'text'>, list: EditedList, from: string, to: string): string => {
  const read: unknown = JSON.parse(text);
  const ways = texts.find((each) => each.of === of)?.ways[list] ?? [];
  const next = ways.reduce<unknown>((value, way) => withId(value, way, from, to), read);
  return next === read ? text : JSON.stringify(next);
};

export const textWritten = ({ of, key, text }: KeptText): Statement => {
  const { update } = texts.find((each) => each.of === of) as Texts;
  return { sql: update, params: [text, key] };
};
