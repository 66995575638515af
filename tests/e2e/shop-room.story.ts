import { readFile } from 'node:fs/promises';
import { png } from '../unit/db/photos/pictures.ts';
import { axeClean } from './axe-clean.ts';
import { enterBy, expect, test } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

test('[P10] [P11] [P12] [P13] [P14] the keeper says what the shop is, puts two parts on the shelf, takes one, finds it by its number, and says its price, by keyboard alone', async ({
  page,
  host,
}, info) => {
  await page.setViewportSize({ width: 1024, height: 700 });
  const field = (name: string | RegExp) => page.getByRole('textbox', { name });
  const button = (name: string) => page.getByRole('button', { name, exact: true });
  await page.goto(`${new URL(page.url()).origin}/#/shop`);
  await tabTo(page, field('Name of the shop'));
  await page.keyboard.type('Saltmarsh Rotor & Fuel');
  await page.keyboard.press('Tab');
  await page.keyboard.type('Quay 4');
  await page.keyboard.press('Enter');
  await page.keyboard.type('Port Hallow');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('form', { name: 'Letterhead' }).getByText('Saved.')).toBeVisible();
  await page.getByLabel('Picture for the letterhead').setInputFiles([{ name: 'sign.png', mimeType: 'image/png', buffer: png }]);
  await expect(page.getByRole('img', { name: 'The sign of Saltmarsh Rotor & Fuel' })).toBeVisible();
  await tabTo(page, field('Names, a line each'));
  await page.keyboard.type('Ines');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await tabTo(page, field('Three letters (ISO 4217)'));
  await page.keyboard.type('xts');
  await page.keyboard.press('Tab');
  await page.keyboard.type('crowns');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('form', { name: 'Money' }).getByText('Saved.')).toBeVisible();
  const counter = page.getByRole('form', { name: 'This counter' });
  await tabTo(page, page.getByRole('textbox', { name: 'Letter', exact: true }), true);
  await page.keyboard.press('Control+a');
  await page.keyboard.type('O');
  await page.keyboard.press('Enter');
  await expect(counter.getByRole('alert')).toContainText('“O” is no letter for a counter.');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('k');
  await page.keyboard.press('Enter');
  await expect(counter.getByText('Saved.')).toBeVisible();
  await expect(counter).toContainText(/numbered K-\d{4}-…/);
  await axeClean(page, 'the shop', info);

  await tabTo(page, page.getByRole('link', { name: 'Stock' }).first());
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('combobox', { name: 'Who', exact: true }));
  await page.keyboard.type('Ines');
  await tabTo(page, button('Add a part'));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('combobox', { name: 'Part of the atlas' }));
  await page.keyboard.type('Gannet bearing');
  await expect(page.getByRole('listbox').getByRole('option').first()).toBeVisible();
  await page.keyboard.press('Enter');
  await tabTo(page, field('How many'));
  await page.keyboard.press('Control+a');
  await page.keyboard.type('3');
  await page.keyboard.press('Tab');
  await page.keyboard.type('new');
  await page.keyboard.press('Tab');
  await page.keyboard.type('12,5');
  await page.keyboard.press('Tab');
  await page.keyboard.type('Rack 2');
  await page.keyboard.press('Enter');
  const row = page.getByRole('row').filter({ hasText: 'Rack 2' });
  await expect(row).toContainText('12.50 crowns');

  await tabTo(page, button('Add a part'));
  await page.keyboard.press('Enter');
  await tabTo(page, field('In words'));
  await page.keyboard.type('Oil line, bent');
  await page.keyboard.press('Enter');
  const bent = page.getByRole('row').filter({ hasText: 'Oil line, bent' });
  await expect(bent).toContainText('not known');

  await tabTo(page, page.getByRole('searchbox', { name: 'Find in stock' }), true);
  await page.keyboard.type('rack');
  await expect(bent).toHaveCount(0);
  await page.keyboard.press('ArrowDown');
  await expect(row.getByRole('rowheader').getByRole('button')).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('status').filter({ hasText: /^Taken: 1 of .*; 2 left\.$/ })).toBeVisible();
  await axeClean(page, 'stock', info);

  const number = (await row.locator('.numbers').textContent()) ?? '';
  await page.keyboard.press('F2');
  await page.keyboard.type(number.toLowerCase().replaceAll(/[^a-z0-9]/g, ''));
  const part = page.getByRole('dialog', { name: 'Part number' }).getByRole('region');
  await expect(part).toContainText('2 new, 12.50 crowns, Rack 2');
  await expect(part).toContainText('Used in');
  await axeClean(page, 'a part number', info);
  await page.keyboard.press('Control+a');
  // Two signs changed places.
  const at = number.search(/\d(?!$)/);
  const [one = '', other = ''] = [...number.slice(at, at + 2)];
  await page.keyboard.type(number.slice(0, at) + other + one + number.slice(at + 2));
  await expect(page.getByRole('button', { name: number, exact: true })).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(part).toContainText('2 new, 12.50 crowns, Rack 2');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await button('Say a price').press('Enter');
  await page.keyboard.type('20');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('article')).toContainText('20.00 crowns by the shop’s own list, Ines');

  // The list of prices: found, written out, altered as a table, and met by another hand.
  await page.getByRole('link', { name: 'price list' }).press('Enter');
  const prices = page.getByRole('row').filter({ has: page.getByRole('rowheader') });
  await expect(prices).toContainText(['20.00 crowns']);
  await tabTo(page, button('Add a price'));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('combobox', { name: 'Part of the atlas' }));
  await page.keyboard.type('Petrel');
  await expect(page.getByRole('listbox').getByRole('option').first()).toBeVisible();
  await page.keyboard.press('Enter');
  await tabTo(page, field(/^Asked for one/));
  await page.keyboard.type('1,500');
  await page.keyboard.press('Enter');
  const form = page.getByRole('form', { name: 'The shop’s price' });
  await expect(form.getByRole('alert')).toHaveText(
    '“1,500” is no price. Write it like 12.50, thousands not set apart, or leave it empty where it is not known.',
  );
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Delete');
  await page.keyboard.press('Enter');
  await expect(form.getByRole('alert')).toContainText('Say what is asked for it.');
  await page.keyboard.type('7,5');
  await page.keyboard.press('Tab');
  await page.keyboard.type('from the supplier’s sheet');
  await page.keyboard.press('Enter');
  await expect(prices).toHaveCount(2);
  const petrel = prices.filter({ hasText: 'supplier’s sheet' });
  await expect(petrel).toContainText('7.50 crowns');
  await axeClean(page, 'prices', info);
  await tabTo(page, page.getByRole('searchbox', { name: 'Find a price' }), true);
  await page.keyboard.type('supplier');
  await expect(prices).toHaveCount(1);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  const elsewhere = await page.context().newPage();
  await enterBy(elsewhere, host);
  await elsewhere.goto(page.url());
  const rowThere = elsewhere.getByRole('row').filter({ hasText: 'supplier’s sheet' });
  await rowThere.getByRole('rowheader').getByRole('button').press('Enter');
  await elsewhere.getByRole('textbox', { name: /^Asked for one/ }).fill('9');
  await elsewhere.keyboard.press('Enter');
  await expect(rowThere).toContainText('9.00 crowns');
  await elsewhere.close();
  await expect(field(/^Asked for one/)).toBeFocused();
  await page.keyboard.type('8');
  await page.keyboard.press('Enter');
  const both = page.getByRole('dialog', { name: 'Written on elsewhere meanwhile' });
  await expect(both).toContainText('8.00 crowns');
  await expect(both).toContainText('9.00 crowns');
  await axeClean(page, 'a price met by another', info);
  await both
    .getByRole('button', { name: /theirs|there/i })
    .first()
    .press('Enter');
  await expect(petrel).toContainText('9.00 crowns');
  const table = (text: string) => ({ name: 'prices.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page.getByLabel('Table of prices').setInputFiles([table('part;price;money\nno-such-part;12;XTS\n')]);
  await expect(page.getByRole('dialog')).toContainText('Row 2, “part”: the atlas has no part “no-such-part”.');
  await page.keyboard.press('Escape');
  const written = page.waitForEvent('download');
  await button('Write as a table').press('Enter');
  const csv = await readFile((await (await written).path()) as string, 'utf8');
  await page.getByLabel('Table of prices').setInputFiles([table(csv.replace(',9,', ',10.25,'))]);
  await expect(page.getByRole('dialog')).toContainText('By it 1 price would be changed');
  await button('Take it in').press('Enter');
  await expect(petrel).toContainText('10.25 crowns');
  await petrel.getByRole('button', { name: /^History/ }).press('Enter');
  await expect(page.getByRole('listitem').filter({ hasText: /crowns/ })).toContainText(['10.25', '9.00', '7.50']);
  await page.keyboard.press('Escape');
  await petrel.getByRole('rowheader').getByRole('button').press('Enter');
  await page.keyboard.press('Delete');
  await button('Take it off the list').press('Enter');
  await expect(petrel).toHaveCount(0);
  await page.goBack();
  await page
    .getByLabel('File for Papers of this part')
    .setInputFiles([{ name: 'letter.txt', mimeType: 'text/plain', buffer: Buffer.from('Dear Osk') }]);
  await page.keyboard.type('a letter');
  await page.keyboard.press('Enter');
  await button('a letter').press('Enter');
  await expect(page.getByRole('dialog', { name: 'a letter' })).toContainText('Dear Osk');
  await page.keyboard.press('Escape');
  await axeClean(page, 'a part in the shop', info);
});
