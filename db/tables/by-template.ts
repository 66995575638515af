import { fold } from '../plain/fold.ts';
import type { ColumnUse, Matching } from './column-use.ts';
import type { TableTemplate } from './template-shelf.ts';

/** Whether every heading a template says something of stands in a table of its kind. */
export const fits = ({ headings, matching }: TableTemplate, heads: readonly string[]): boolean => {
  const here = new Set(heads.map(fold));
  const said = headings.filter((heading, at) => heading !== '' && matching.columns[at]?.is !== 'ignored');
  return said.length > 0 && said.every((heading) => here.has(fold(heading)));
};

/** The columns of a table as a template takes those of the same headings, wherever they stand; of two alike the first first. What it knows nothing of is ignored. */
export const columnsBy = ({ headings, matching }: TableTemplate, heads: readonly string[]): Matching['columns'] => {
  const left = headings.map((heading, at) => ({ heading: fold(heading), use: matching.columns[at] }));
  return heads.map((head): ColumnUse => {
    const at = head === '' ? -1 : left.findIndex(({ heading }) => heading === fold(head));
    return (at < 0 ? undefined : left.splice(at, 1)[0]?.use) ?? { is: 'ignored' };
  });
};
