import { createContext, useContext } from 'react';
import type { EntryForm } from '../../electron/bridge/edit-calls.ts';
import { isAt, type JsonObject, type Path, pathText } from './json.ts';

/** What every field of a form stands on. */
export interface FormGround {
  readonly list: string;
  readonly references: EntryForm['references'];
  /** What is wrong, by the way to it. */
  readonly faults: ReadonlyMap<string, string>;
  /** The entry as it is being edited: what can stand in one field may hang on another. */
  readonly entry: JsonObject;
}

export const FormContext = createContext<FormGround>({ list: '', references: [], faults: new Map(), entry: {} });

/** The list an id at this place is of; null where no id stands. */
export const listAt = (references: EntryForm['references'], path: Path): string | null =>
  references.find(({ at }) => isAt(path, at))?.list ?? null;

export const useFault = (path: Path): string | null => useContext(FormContext).faults.get(pathText(path)) ?? null;
