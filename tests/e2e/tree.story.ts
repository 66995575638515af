import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { bare } from '../unit/report/read-pdf.ts';
import { demo } from '../unit/seed/demo-atlas.ts';
import { noViolations } from './axe-clean.ts';
import { expect, reading } from './fixtures.ts';
import { holdCall } from './hold-call.ts';
import { tabTo } from './keyboard.ts';

const item = (page: Page, name: string | RegExp) => page.getByRole('treeitem', { name });

reading.describe('the family tree', () => {
  reading.beforeEach(async ({ page }) => {
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.getByRole('link', { name: 'Tree', exact: true }).press('Enter');
    await expect(page.locator('.tree-body text').first()).toBeVisible();
  });

  reading(
    '[V3] a learner walks the outline by keyboard, unfolds a family to its models and parts, and holds two nodes against each other',
    async ({ page }, info) => {
      const outline = page.getByRole('tree', { name: 'Outline of the tree' });
      await tabTo(page, item(page, /^Merrowby/));
      await expect(item(page, /^Merrowby/)).toHaveAttribute('aria-expanded', 'true');
      // Letters find a name; right unfolds, then goes in; left goes back and folds.
      await page.keyboard.type('pet');
      await expect(item(page, /^Petrel.*1994 to 2012/)).toBeFocused();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
      await expect(item(page, /^Petrel 6 Cartridge/)).toBeFocused();
      await expect(item(page, /^Petrel 6 Cartridge/)).toHaveAttribute('aria-level', '3');
      await expect(item(page, /^Petrel 6 Cartridge/)).toHaveAttribute('aria-setsize', '6');
      // What is unfolded in the outline is unfolded in the drawing.
      await expect(page.locator('.tree-body text', { hasText: 'Petrel 21 Cartridge' })).toBeVisible();
      // Whoever is quicker than the answer has not pressed in vain.
      const answer = await holdCall(page, 'tree.parts');
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
      await expect(outline.getByRole('treeitem', { name: 'compressor housing' })).toBeFocused();
      await page.keyboard.press('ArrowRight');
      answer();
      await expect(item(page, /names the model$/).first()).toBeAttached();
      await page.keyboard.press('ArrowLeft');
      await page.keyboard.press('ArrowLeft');
      await expect(item(page, /^Petrel 6 Cartridge/)).toBeFocused();
      await page.keyboard.press('Enter');
      await expect(item(page, /^Petrel 6 Cartridge.*first/)).toHaveAttribute('aria-selected', 'true');

      await page.keyboard.press('End');
      await expect(item(page, /^Breakwater/)).toBeFocused();
      await page.keyboard.type('northq');
      await page.keyboard.press(' ');
      const pair = page.getByRole('region', { name: 'Picked' });
      await expect(pair.getByRole('list', { name: 'Shortest chain of reasons' }).getByRole('listitem')).toHaveText([
        'Petrel 6 Cartridge is a model of Petrel',
        'Petrel is the pattern for Northquay',
      ]);
      await expect(page).toHaveURL(/#\/tree\/model\/petrel-6-cartridge\/family\/northquay$/);
      await noViolations(page, 'two picked');
      await info.attach('two picked', { body: await page.screenshot(), contentType: 'image/png' });

      // The address alone brings the two back.
      await page.reload();
      await expect(pair.getByRole('listitem')).toHaveCount(2);
      await tabTo(page, pair.getByRole('button', { name: 'Let go of Northquay' }));
      await page.keyboard.press('Enter');
      await expect(pair).toContainText('Pick another');
    },
  );

  reading(
    '[V3] zoom goes from makers to parts, by its buttons and by + and − in the drawing, and overlays are switched by keyboard',
    async ({ page }, info) => {
      const levels = page.getByRole('radio');
      await tabTo(page, page.getByRole('radio', { name: 'Families' }));
      for (const name of ['Generations', 'Models', 'Parts']) {
        await page.keyboard.press('ArrowRight');
        await expect(page.getByRole('radio', { name })).toBeChecked();
        await info.attach(name, { body: await page.screenshot(), contentType: 'image/png' });
      }
      await expect(page.locator('.tree-body text', { hasText: /bearing housing$/ }).first()).toBeVisible();
      await tabTo(page, page.getByRole('group', { name: /^Drawing of the tree/ }));
      await page.keyboard.press('0');
      await expect(page.getByRole('radio', { name: 'Families' })).toBeChecked();
      await page.keyboard.press('-');
      await expect(page.getByRole('radio', { name: 'Makers' })).toBeChecked();
      await expect(page.getByRole('button', { name: 'Zoom out' })).toBeDisabled();
      await page.keyboard.press('+');
      await expect(levels.nth(1)).toBeChecked();

      const drawn = page.locator('.tree-body');
      await expect(drawn.locator('text', { hasText: 'Lisle-Merrowby' })).toBeVisible();
      await tabTo(page, page.getByRole('checkbox', { name: 'trade names' }), true);
      await page.keyboard.press(' ');
      await expect(drawn.locator('text', { hasText: 'Lisle-Merrowby' })).toHaveCount(0);
      await tabTo(page, page.getByRole('checkbox', { name: 'shared core parts' }));
      await page.keyboard.press(' ');
      await expect(drawn.getByText('bearing housing, shaft', { exact: true })).toBeVisible();
      await expect(item(page, /^Tuff/)).toContainText('shares bearing housing with Basalt');
      await tabTo(page, page.getByRole('checkbox', { name: 'shared housings' }));
      await page.keyboard.press(' ');
      await noViolations(page, 'shared parts');
      await info.attach('shared', { body: await page.screenshot(), contentType: 'image/png' });
    },
  );

  reading('[V3] a node is picked by mouse, and the drawing stays where it was when it is zoomed', async ({ page }) => {
    await page.locator('.tree-body text', { hasText: 'Gannet' }).click();
    await expect(item(page, /^Gannet/)).toHaveAttribute('aria-selected', 'true');
    const place = async () => (await page.locator('.tree-body text', { hasText: /^Gannet$/ }).boundingBox())?.y ?? 0;
    const before = await place();
    expect(before).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Zoom in' }).click();
    await page.getByRole('button', { name: 'Zoom in' }).click();
    await expect(page.locator('.tree-body text', { hasText: 'Gannet 20' })).toBeVisible();
    await expect.poll(async () => Math.abs((await place()) - before)).toBeLessThan(60);
    // Whose rows these are stays in view, however many there are.
    await page.locator('.tree-scroll').evaluate((scroller) => {
      scroller.scrollTop = 500;
    });
    await expect(page.locator('.tree-margin text', { hasText: 'Merrowby' })).toBeInViewport();
  });

  reading('[V3] what is saved as SVG stands on its own and holds every family; the PNG is the same drawing', async ({ page }) => {
    const saving = page.waitForEvent('download');
    await tabTo(page, page.getByRole('button', { name: 'Save SVG' }));
    await page.keyboard.press('Enter');
    const svg = readFileSync(await (await saving).path(), 'utf8');
    const read = await page.evaluate((text) => {
      const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
      return {
        broken: parsed.querySelector('parsererror')?.textContent ?? null,
        texts: [...parsed.querySelectorAll('text')].map((one) => one.textContent),
        width: Number(parsed.documentElement.getAttribute('width')),
        height: Number(parsed.documentElement.getAttribute('height')),
      };
    }, svg);
    expect(read.broken).toBeNull();
    expect(read.texts).toEqual(
      expect.arrayContaining(['Shearwater', 'Skua', 'Breakwater', 'Merrowby', 'Lisle Air Engines', '1960', 'succeeds']),
    );
    expect(svg).not.toMatch(/var\(|<style|<script|light-dark/);
    const picture = page.waitForEvent('download');
    await tabTo(page, page.getByRole('button', { name: 'Save PNG' }));
    await page.keyboard.press('Enter');
    const png = readFileSync(await (await picture).path());
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    // Width and height stand in the header (K: PNG specification, IHDR).
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([Math.floor(read.width * 2), Math.floor(read.height * 2)]);
    await expect(page.getByRole('status').filter({ hasText: 'family-tree.png saved' })).toBeVisible();
  });

  reading(
    '[V3] it prints on one sheet where that can be read, and else on several, each with its years and makers',
    async ({ page }, info) => {
      const read = async (name: string) => {
        const body = await page.pdf({ preferCSSPageSize: true });
        await info.attach(name, { body, contentType: 'application/pdf' });
        const pdf = await getDocument({ data: new Uint8Array(body), verbosity: 0 }).promise;
        const letters: { text: string; points: number }[] = [];
        for (let at = 1; at <= pdf.numPages; at += 1)
          for (const item of (await (await pdf.getPage(at)).getTextContent()).items)
            if ('transform' in item && item.str.trim() !== '')
              letters.push({ text: item.str, points: Math.hypot(Number(item.transform[2]), Number(item.transform[3])) });
        return { pages: pdf.numPages, letters };
      };
      expect((await read('families.pdf')).pages).toBe(1);
      await page.getByRole('radio', { name: 'Models' }).check();

      // What was made for paper is gone again before the next is asked for.
      await expect(page.locator('.tree-paper')).toHaveCount(0);
      // The button asks the browser to print; here the browser is asked instead, once the button has said how.
      await page.evaluate(() => {
        window.print = () => undefined;
      });
      await tabTo(page, page.getByRole('button', { name: 'Print on A3' }));
      await page.keyboard.press('Enter');
      await page.emulateMedia({ media: 'print' });
      const sheets = page.locator('.tree-sheet');
      // The sheets are made once the browser has said that it prints, and all of them at once.
      await expect.poll(() => sheets.count()).toBeGreaterThan(1);
      const count = await sheets.count();
      for (let at = 0; at < count; at += 1) {
        await expect(sheets.nth(at)).toBeVisible();
        await expect(sheets.nth(at)).toHaveAttribute('aria-label', new RegExp(`sheet ${at + 1} of ${count}`));
      }
      // A maker whose rows go on is named on the next sheet too.
      expect(['Merrowby', 'Tarnwick', 'Veldmark', 'Osterhal', 'No maker’s name']).toContain(
        await sheets.nth(1).locator('g text').first().textContent(),
      );
      for (const left of [page.locator('.bar'), page.locator('.outline'), page.locator('.tree-tools')]) await expect(left).toBeHidden();
      const printed = await read('models.pdf');
      expect(printed.pages).toBe(count);
      const said = bare(printed.letters.map(({ text }) => text).join(''));
      for (const { name } of demo.data.models) expect(said).toContain(bare(name));
      expect(printed.letters.filter(({ points }) => points < 7)).toEqual([]);
    },
  );
});
