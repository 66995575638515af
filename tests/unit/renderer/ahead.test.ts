import { expect, test } from 'vitest';
import type { Bridge, CallArgs, Reply } from '../../../electron/bridge/contract.ts';
import { aheadOf } from '../../../renderer/bridge/aheadOf.ts';

type Args = CallArgs<'verdict.of'>;
const sheet = (claimed: string): Args => ({ sheet: { claimed } }) as unknown as Args;
const verdict = (of: string) => ({ ok: true, value: of }) as unknown as Reply<'verdict.of'>;
const cancelled = { ok: false, trouble: { code: 'cancelled' } } as unknown as Reply<'verdict.of'>;

/** A desk that answers when it is told to. */
const slowDesk = () => {
  const asked: { readonly args: unknown; readonly place: string | undefined; answer(reply: Reply<'verdict.of'>): Promise<void> }[] = [];
  const ask = ((_: string, args: unknown, how?: { readonly place?: string }) =>
    new Promise((resolve) => {
      asked.push({
        args,
        place: how?.place,
        answer: async (reply) => {
          resolve(reply);
          await Promise.resolve();
        },
      });
    })) as unknown as Bridge['ask'];
  return { asked, ahead: aheadOf(ask) };
};

test('[B7] what was asked ahead is there for the same question under the same atlas, and for no other', async () => {
  const { asked, ahead } = slowDesk();
  expect(ahead.asked('verdict.of', sheet('a'), 0)).toBeNull();
  ahead.ask('verdict.of', sheet('a'), 0);
  expect(ahead.known('verdict.of', sheet('a'), 0)).toBeNull();
  const reply = ahead.asked('verdict.of', sheet('a'), 0);
  await asked[0]?.answer(verdict('of a'));
  expect(await reply).toEqual(verdict('of a'));
  expect(ahead.known('verdict.of', sheet('a'), 0)).toBe('of a');
  expect(ahead.known('verdict.of', sheet('b'), 0)).toBeNull();
  expect(ahead.known('verdict.of', sheet('a'), 1)).toBeNull();
  expect(ahead.known('odds.of', sheet('a'), 0)).toBeNull();
});

test('[B7] the same is asked ahead once; a newer question, at the same place of the desk, is the one that is known', async () => {
  const { asked, ahead } = slowDesk();
  ahead.ask('verdict.of', sheet('4'), 0);
  ahead.ask('verdict.of', sheet('4'), 0);
  ahead.ask('verdict.of', sheet('47'), 0);
  expect(asked.map(({ args }) => args)).toEqual([sheet('4'), sheet('47')]);
  expect(new Set(asked.map(({ place }) => place)).size).toBe(1);
  await asked[1]?.answer(verdict('of 47'));
  await asked[0]?.answer(verdict('of 4'));
  expect(ahead.known('verdict.of', sheet('47'), 0)).toBe('of 47');
  expect(ahead.known('verdict.of', sheet('4'), 0)).toBeNull();
});

test('[B7] a trouble is no answer: what met one is asked again', async () => {
  const { asked, ahead } = slowDesk();
  ahead.ask('verdict.of', sheet('a'), 0);
  await asked[0]?.answer(cancelled);
  expect(ahead.known('verdict.of', sheet('a'), 0)).toBeNull();
  expect(ahead.asked('verdict.of', sheet('a'), 0)).toBeNull();
  ahead.ask('verdict.of', sheet('a'), 0);
  expect(asked.length).toBe(2);
});
