import type { ComponentType } from 'react';
import type { Shape } from '../../electron/bridge/edit-calls.ts';
import type { Json, Path } from './json.ts';

export interface FieldProps {
  readonly shape: Shape;
  readonly path: Path;
  readonly value: Json | undefined;
  /** Whether the field may be left out altogether. */
  readonly mayLack: boolean;
  /** On a line of a list its name is said to those who hear it alone. */
  readonly bare?: boolean;
  onChange(value: Json | undefined): void;
}

/** What shows a field of any shape. Lists and tables are handed it, since their lines are fields again. */
export type Field = ComponentType<FieldProps>;
