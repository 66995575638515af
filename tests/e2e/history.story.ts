import type { Page } from '@playwright/test';
import { axeClean, noViolations } from './axe-clean.ts';
import { expect, test } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

/** What one made somewhere else: a change of the atlas, as any window may make it. */
const change = async (page: Page, blades: number, why: string): Promise<void> => {
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

/** Cases as another window saves them: units that are claimed to be a Tern 3 and have a wheel of twelve blades. */
const keepCases = (page: Page, many: number): Promise<void> =>
  page.evaluate(async (count) => {
    type Saved = { readonly ok: boolean; readonly value: { readonly sheet: object } };
    const { desk } = window as unknown as { readonly desk: { ask(name: string, args: unknown): Promise<Saved> } };
    const { sheet } = (await desk.ask('sheets.open', { id: 's13-rebuilt-tern' })).value;
    const value = { kind: 'count', from: 12, to: 12 };
    const seen = { id: 'o1', slot: 'compressor-wheel', feature: 'compressor-wheel-full-blades', value, sure: { kind: 'seen' } };
    for (let n = 1; n <= count; n += 1) {
      const unit = { ...sheet, id: `case-${n}`, claimed: 'Tern 3', observations: [seen] };
      const saved = await desk.ask('sheets.save', { sheet: unit, madeAgainst: null });
      if (!saved.ok) throw new Error(JSON.stringify(saved));
    }
  }, many);

test('[H2] [H4] by keyboard: what was changed is read, one change is taken back, and what rests on another is named', async ({
  page,
}, info) => {
  await keepCases(page, 9);
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
  // Nine cases are more than are judged unasked.
  const undoing = page.getByRole('region', { name: /^Undoing change/ });
  await expect(undoing).toContainText('9 saved cases would be judged again.');
  await tabTo(page, undoing.getByRole('button', { name: 'Judge them now' }), true);
  await axeClean(page, 'cases that would be judged again', info);
  await page.keyboard.press('Enter');
  const told = undoing.getByText(/^9 of 9 saved cases would be judged otherwise\./);
  await expect(told, 'the focus stays by what was asked for').toBeFocused();
  await expect(undoing.getByRole('listitem')).toHaveCount(9);
  await axeClean(page, 'cases that would be judged otherwise', info);
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
