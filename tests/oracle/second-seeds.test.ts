import { describe } from 'vitest';
import { holdToClingo } from './hold-to-clingo.ts';

describe('made-up atlases, second half', () => holdToClingo(331, 660, 260));
