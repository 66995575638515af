import { it } from 'vitest';
import { compare, emptyTally } from './agreement.ts';
import { randomCase } from './random-atlas.ts';

it('x', async () => {
  const tally = emptyTally();
  const from = Number(process.env.FROM ?? 1),
    to = Number(process.env.TO ?? 60);
  let bad = 0;
  for (let seed = from; seed <= to; seed++) {
    const d = await compare(randomCase(seed), tally);
    if (d.length > 0) {
      bad++;
      if (bad < 6) console.log(JSON.stringify(d.slice(0, 4), null, 1));
      else console.log(seed, d[0]?.about);
    }
  }
  console.log(JSON.stringify(tally), 'bad', bad);
}, 3_000_000);
