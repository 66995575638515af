import { atlas } from './0001-atlas.ts';
import { shop } from './0002-shop.ts';
import type { Migration } from './migration.ts';

export const migrations: readonly Migration[] = [atlas, shop];
