import { describe } from 'vitest';
import { holdToClingo } from './hold-to-clingo.ts';

describe('made-up atlases, first half', () => holdToClingo(1, 330, 260));
