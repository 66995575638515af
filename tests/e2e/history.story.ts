import { axeClean, noViolations } from './axe-clean.ts';
import { expect, test } from './fixtures.ts';

/** What one made somewhere else: a change of the atlas, as any window may make it. */
const change = async (page: import('@playwright/test').Page, blades: number, why: string): Promise<void> => {
  await page.evaluate(
    async ([count, reason]) => {
      const ask = async (name: string, args: unknown) => {
        const reply = await (
          window as unknown as { desk: { ask(name: string, args: unknown): Promise<{ ok: boolean; value: unknown }> } }
        ).desk.ask(name, args);
        if (!reply.ok) throw new Error(JSON.stringify(reply));
        return reply.value as { head: string; entry: { facts: object } };
      };
      const { entry, head } = await ask('changes.entry', { list: 'parts', id: 'merrowby-tern-3-compressor-wheel' });
      const facts = { ...entry.facts, 'compressor-wheel-full-blades': { kind: 'count', from: count, to: count } };
      await ask('changes.make', {
        edits: [{ list: 'parts', put: { ...entry, facts } }],
        who: 'Ines',
        why: reason,
        source: 'the bench',
        head,
      });
    },
    [blades, why] as const,
  );
};

test('[H2] [H4] by keyboard: what was changed is read, one change is taken back, and what rests on another is named', async ({
  page,
}, info) => {
  await change(page, 11, 'counted again');
  await change(page, 12, 'counted by Bram');
  await page.getByRole('link', { name: 'Atlas' }).press('Enter');
  await page.getByRole('link', { name: /^Every change of the atlas/ }).press('Enter');
  const rows = page.getByRole('table', { name: 'Changes, the newest first' }).getByRole('row');
  await expect(rows.nth(1)).toContainText('counted by Bram');
  await expect(rows.nth(2)).toContainText('counted again · the bench');
  await expect(rows.nth(3)).toContainText('Pack put in');

  // The older one: the newer rests on it.
  await rows
    .nth(2)
    .getByRole('button', { name: /^Look at it/ })
    .press('Enter');
  await expect(page.getByRole('heading', { name: /^Change \d+: Edited/ })).toBeFocused();
  await page.getByRole('button', { name: 'Undo it…' }).press('Enter');
  await expect(page.getByRole('table', { name: 'What stays as it is' })).toContainText('12');
  await expect(page.getByRole('button', { name: 'Undo the rest' })).toBeDisabled();
  await axeClean(page, 'undoing a change something rests on', info);
  await page.getByRole('button', { name: 'Leave it' }).press('Enter');

  // The newest: whole.
  await rows
    .nth(1)
    .getByRole('button', { name: /^Look at it/ })
    .press('Enter');
  await page.getByRole('button', { name: 'Undo it…' }).press('Enter');
  await expect(page.getByText('1 thing would be as before.')).toBeVisible();
  await page.getByRole('textbox', { name: 'Why' }).fill('counted wrongly');
  await page.getByRole('button', { name: 'Undo it', exact: true }).press('Enter');
  await expect(page.getByText(/^Undone, as change \d+\.$/)).toBeVisible();
  await expect(rows.nth(1)).toContainText('counted wrongly');
  await expect(rows.nth(2)).toContainText('undone since');

  // Of one part, and how it was before any of it.
  await page.evaluate(() => {
    window.location.hash = '#/history/parts/merrowby-tern-3-compressor-wheel';
  });
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Tern 3');
  await expect(rows).toHaveCount(5);
  await page.getByLabel('As it stood at the end of').fill('2020-01-01');
  await expect(page.getByText(/it was not in the atlas/)).toBeVisible();
  await page.setViewportSize({ width: 1024, height: 700 });
  await noViolations(page, 'the history of a part, smaller');
});
