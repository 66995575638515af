import { at } from '../../renderer/look/landmarks.ts';
import { axeClean } from './axe-clean.ts';
import { expect, reading, saving as test, test as withRestart } from './fixtures.ts';
import { holdCall } from './hold-call.ts';
import { enter, entered, featureBox, tabTo, typed, verdictSettled, walkTo } from './keyboard.ts';

test.describe('entry by keyboard, and for greasy hands', () => {
  reading('[O1] blades are counted by tapping: main and splitter blades apart, then once more round to be sure', async ({ page }) => {
    await verdictSettled(page);
    await featureBox(page, 'compressor wheel').focus();
    await page.keyboard.type('full blade');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await expect(page.getByRole('button', { name: 'Count by tapping' })).toBeFocused();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'Count round the compressor wheel' });
    await expect(dialog.getByRole('button', { name: 'full blades' })).toBeFocused();
    for (let blade = 0; blade < 7; blade += 1) await page.keyboard.type('12');
    await page.keyboard.type('2');
    await page.keyboard.press('Backspace');
    await expect(dialog.getByRole('status')).toHaveText('7 full blades, 7 splitter blades');
    await page.keyboard.press('Enter');
    await expect(dialog.getByRole('status')).toContainText('Counted once');
    await expect(dialog.getByRole('button', { name: 'Count again' })).toBeFocused();
    await page.keyboard.press('Enter');
    // A slip in the second round: the last two rounds must agree.
    for (let blade = 0; blade < 6; blade += 1) await page.keyboard.type('12');
    await page.keyboard.press('Enter');
    await expect(dialog.getByRole('status')).toContainText('do not agree');
    for (const _ of ['third', 'fourth']) {
      await page.keyboard.press('Enter');
      for (let blade = 0; blade < 7; blade += 1) await page.keyboard.type('12');
      await page.keyboard.press('Enter');
    }
    await expect(dialog.getByRole('status')).toContainText('the same: 7 full blades, 7 splitter blades');
    await page.keyboard.press('Enter');
    await expect(featureBox(page, 'compressor wheel')).toBeFocused();
    await expect(entered(page, /^full blade count 7 seen counted round 4 times: 7, 6, 7, 7/)).toBeVisible();
    await expect(entered(page, /^splitter blade count 7 seen/)).toBeVisible();
    await page.keyboard.press('Control+z');
    await expect(page.getByRole('list', { name: 'Entries for compressor wheel' })).toHaveCount(0);
  });

  test('[O1] what could not be told is an answer: it stays on the sheet, proves nothing, and can be entered after all', async ({
    page,
  }) => {
    await verdictSettled(page);
    const count = page.locator('.slot', { has: page.getByRole('heading', { name: 'shaft' }) }).locator('.slot-count');
    const before = await count.textContent();
    await featureBox(page, 'shaft').focus();
    await page.keyboard.type('journal');
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('button', { name: 'may not be opened' }));
    await page.keyboard.press('Enter');
    await expect(featureBox(page, 'shaft')).toBeFocused();
    const row = page.getByRole('button', { name: 'journal or raceway diameter may not be opened no answer; enter it' });
    await expect(row).toBeVisible();
    await verdictSettled(page);
    expect(await count.textContent()).toBe(before);
    await page.keyboard.press('Control+s');
    await expect(page.getByRole('toolbar', { name: 'Sheet' }).getByText('Saved')).toBeVisible();
    await page.reload();
    await expect(row).toBeVisible();
    await tabTo(page, row);
    await page.keyboard.press('Enter');
    await page.keyboard.type('8.02');
    await page.keyboard.press('Enter');
    await expect(row).toHaveCount(0);
    await expect(page.locator('[data-entry]').filter({ hasText: '8.02 mm' })).toBeVisible();
    await page.keyboard.press('Control+z');
    await expect(row).toBeVisible();
  });

  reading(
    '[Q1] what is typed while an entry is looked at, or the sheet opens at the next check, is kept for it; nothing is taken unseen; a choice swallows no key',
    async ({ page }) => {
      await verdictSettled(page);
      const form = page.getByRole('form', { name: /: enter$/ });
      const box = featureBox(page, 'bearing housing');
      await box.focus();
      await page.keyboard.type('water');
      await page.keyboard.press('Enter');
      // A figure is no answer to “there, or not there?”, and says so; a letter picks; a space does.
      await page.keyboard.type('7');
      await expect(form.getByRole('status').first()).toHaveText('Nothing here begins “7”. This is a choice: there or not there.');
      await page.keyboard.type('n');
      await expect(form.getByRole('radio', { name: 'not there' })).toBeChecked();
      await expect(form.getByRole('status').first()).toHaveText('');
      await page.keyboard.press('ArrowUp');
      await page.keyboard.press('Space');
      await expect(form.getByRole('radio', { name: 'there', exact: true })).toBeChecked();
      await page.keyboard.press('Enter');
      await walkTo(page, 'nameplate');

      // A number off the plate is read by the desk first: what follows without a pause is of the next entry.
      await page.keyboard.type('part number');
      await page.keyboard.press('Enter');
      await page.keyboard.type('FLAG 76736/1');
      await page.keyboard.press('Enter');
      await page.keyboard.type('year of make');
      await page.keyboard.press('Enter');
      await page.keyboard.type('1989');
      await page.keyboard.press('Enter');
      await expect(entered(page, /^part number “FLAG 76736\/1” seen/)).toBeVisible();
      await expect(entered(page, /^year of make 1989 seen/)).toBeVisible();

      // The next check is worked out meanwhile: what is typed waits for it, and Enter for somebody to look.
      await page.keyboard.type('hole count');
      await page.keyboard.press('Enter');
      await page.keyboard.type('2');
      const firstAnswer = await holdCall(page, 'odds.of');
      await page.keyboard.press('Control+Enter');
      await page.keyboard.type('11');
      await page.keyboard.press('Enter');
      firstAnswer();
      await expect(entered(page, /^hole count 2 seen/)).toBeVisible();
      await expect(form.getByRole('alert')).toHaveText('Typed before this was in sight. Look, then press Enter.');
      const letters = form.locator(at('value', 'input.field'));
      if ((await letters.count()) > 0) await expect(letters).toHaveValue('11');
      else await expect(form.getByRole('status').first()).toContainText('This is a choice');
      await expect(page.locator('[data-entry]')).toHaveCount(4);

      // Escape while it is on its way gives it up.
      await page.keyboard.press('Escape');
      await box.focus();
      await page.keyboard.type('rib count');
      await page.keyboard.press('Enter');
      await page.keyboard.type('3');
      const secondAnswer = await holdCall(page, 'odds.of');
      await page.keyboard.press('Control+Enter');
      await page.keyboard.type('9');
      await page.keyboard.press('Escape');
      secondAnswer();
      await expect(entered(page, /^rib count 3 seen/)).toBeVisible();
      await expect(page.getByRole('region', { name: 'Next check' })).toHaveAttribute('data-state', 'answered');
      await expect(box).toBeFocused();
      await expect(box).toHaveValue('');
      await expect(form).toHaveCount(0);
    },
  );

  reading('[O1] measures are read in either unit, with fractions, and kept in millimetres', async ({ page }) => {
    await verdictSettled(page);
    await featureBox(page, 'compressor housing').focus();
    await enter(page, 'compressor housing', 'inlet diameter', typed('2.25 in'));
    await expect(entered(page, /^inlet diameter 57.15 mm/)).toBeVisible();
    await enter(page, 'compressor housing', 'outlet diameter', typed('2 1/4 in'));
    await expect(entered(page, /^outlet diameter 57.15 mm/)).toBeVisible();
    await enter(page, 'compressor housing', 'inlet diameter', typed('2-13/16 in'));
    await expect(entered(page, /^inlet diameter 71.4375 mm/)).toBeVisible();
    await walkTo(page, 'turbine wheel');
    await enter(page, 'turbine wheel', 'inducer diameter', typed('57.15'));
    await expect(entered(page, /^inducer diameter 57.15 mm/)).toBeVisible();
  });

  test('[O7] a size that is hard to believe is asked about once: the likely slip is one key away, and what was read is kept as confirmed', async ({
    page,
  }) => {
    await verdictSettled(page);
    const wheel = featureBox(page, 'compressor wheel');
    await wheel.focus();
    const open = async (feature: string, value: string) => {
      await page.keyboard.type(feature);
      await page.keyboard.press('Enter');
      await expect(page.getByRole('form', { name: `${feature}: enter` })).toBeVisible();
      await page.keyboard.type(value);
      await page.keyboard.press('Enter');
    };
    const question = page.getByRole('group', { name: /lies outside what is usual/ });

    // The decimal point was left out: the first answer has the focus, and Enter takes it.
    await open('exducer diameter', '5720');
    await expect(question).toContainText('An exducer diameter of 5720 mm lies outside what is usual, 20 to 260 mm.');
    await expect(page.getByRole('button', { name: '57.2 mm, if the decimal point slipped' })).toBeFocused();
    await axeClean(page, 'a question about an entry');
    await page.keyboard.press('Enter');
    await expect(wheel).toBeFocused();
    await expect(entered(page, /^exducer diameter 57.2 mm ±0.058; change/)).toBeVisible();
    await verdictSettled(page);
    await page.keyboard.press('Control+z');

    // Escape goes back to the figure, and only from there leaves the entry; nothing has gone on the sheet.
    await open('full blade count', '111');
    await expect(question.getByRole('button', { name: '11 full blades, if a figure was written twice' })).toBeFocused();
    await page.keyboard.press('Escape');
    await expect(question).toHaveCount(0);
    await expect(page.getByRole('textbox', { name: 'full blade count' })).toBeFocused();
    await page.keyboard.type('2');
    await page.keyboard.press('Enter');
    await expect(question).toContainText('A count of 2 full blades lies outside what is usual, 3 to 20.');
    await tabTo(page, question.getByRole('button', { name: 'It is what I read' }));
    await page.keyboard.press('Enter');
    const kept = entered(page, /^full blade count 2 seen confirmed; change/);
    await expect(kept).toBeVisible();
    await expect(wheel).toBeFocused();
    await verdictSettled(page);

    // Once: neither the note nor another look at the entry asks again, and the confirmation is on the shelf.
    await tabTo(page, kept, true);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('textbox', { name: 'Note' }));
    await page.keyboard.type('cut down');
    await page.keyboard.press('Enter');
    await expect(entered(page, /^full blade count 2 seen confirmed; cut down; change/)).toBeVisible();
    await page.keyboard.press('Control+s');
    await expect(page.getByRole('toolbar', { name: 'Sheet' }).getByText('Saved')).toBeVisible();
    await page.reload();
    await expect(entered(page, /^full blade count 2 seen confirmed; cut down; change/)).toBeVisible();
    await verdictSettled(page);
    await expect(question).toHaveCount(0);

    // Read again and typed the same, it is the answer; and the same once more on this sheet asks nothing.
    await wheel.focus();
    await open('splitter blade count', '99');
    await expect(question).toContainText('A count of 99 splitter blades');
    await page.keyboard.press('Escape');
    await page.keyboard.type('99');
    await page.keyboard.press('Enter');
    await expect(entered(page, /^splitter blade count 99 seen confirmed; change/)).toBeVisible();
    await open('splitter blade count', '99');
    await expect(entered(page, /^splitter blade count 99 seen confirmed; change/)).toHaveCount(2);
    await expect(question).toHaveCount(0);

    // What cannot be is no question.
    await wheel.focus();
    await open('inducer diameter', '0');
    await expect(page.getByRole('alert')).toContainText('An inducer diameter of 0 mm cannot be: a length is greater than zero.');
    await page.keyboard.press('Escape');
    await expect(wheel).toBeFocused();
  });

  test('[O7] an entry that came on the sheet unasked is asked about where it stands', async ({ page }) => {
    await verdictSettled(page);
    await featureBox(page, 'compressor wheel').focus();
    await page.keyboard.type('full blade');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'Count round the compressor wheel' });
    for (const _ of ['first', 'second']) {
      await expect(dialog.getByRole('button', { name: 'full blades' })).toBeFocused();
      for (let blade = 0; blade < 2; blade += 1) await page.keyboard.type('12');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Enter');
    }
    const question = page.getByRole('group', { name: /A count of 2 full blades lies outside what is usual/ });
    await expect(question).toBeVisible();
    await expect(page.getByRole('region', { name: 'Verdict' })).toContainText(
      'Asked first. A count of 2 full blades lies outside what is usual, 3 to 20. Say that it is what was read',
    );
    await tabTo(page, question.getByRole('button', { name: 'It is what I read' }));
    await page.keyboard.press('Enter');
    await expect(entered(page, /^full blade count 2 seen confirmed; counted round twice/)).toBeVisible();
    await expect(question).toHaveCount(0);
    await verdictSettled(page);
  });

  reading(
    '[O2] the instrument is chosen and brings its uncertainty, which stays free to be changed; a feature is found by the trade’s other words',
    async ({ page }) => {
      await verdictSettled(page);
      await featureBox(page, 'compressor wheel').focus();
      await page.keyboard.type('major dia');
      await page.keyboard.press('Enter');
      const form = page.getByRole('form', { name: 'exducer diameter: enter' });
      await page.keyboard.type('57.1');
      const instrument = form.getByRole('combobox', { name: 'Measured with' });
      await expect(instrument).toHaveValue('caliper');
      await tabTo(page, instrument);
      await page.keyboard.type('steel');
      await expect(instrument).toHaveValue('steel rule');
      await expect(form.getByRole('textbox', { name: 'How far off it may be, ±' })).toHaveValue('0.58');
      await expect(form).toContainText('JCGM 100:2008, 4.3.7');
      await page.keyboard.press('Tab');
      await page.keyboard.press('Control+a');
      await page.keyboard.type('0.8');
      await page.keyboard.press('Enter');
      await expect(page.getByRole('button', { name: 'exducer diameter 57.1 mm ±0.8 with steel rule; change' })).toBeVisible();
    },
  );

  reading(
    '[O5] a plate is typed as it is stamped, and every disagreement is named with what it rests on; the ticket follows',
    async ({ page }) => {
      await verdictSettled(page);
      await featureBox(page, 'nameplate').focus();
      await enter(page, 'nameplate', 'part number', async () => {
        // What the number means so far is said at every key: what is still to come, what cannot stand there, and at its end whose it is.
        const meaning = page.getByRole('form', { name: 'part number: enter' }).locator('.number-meaning');
        const pieces = meaning.getByRole('list', { name: 'Merrowby: piece by piece' }).getByRole('listitem');
        await page.keyboard.type('flag 767');
        await expect(pieces).toHaveText(['flagnameplate', '767running number: 2 more figures', '·issue of the drawing: 1 figure']);
        await page.keyboard.type('x');
        await expect(pieces.last()).toHaveText('xsign 9: running number, which wants 5 figures');
        await axeClean(page, 'a number that is typed');
        await page.keyboard.press('Backspace');
        await page.keyboard.type('36 / 9');
        await expect(meaning).toContainText('Not listed: no part of the atlas has this number. It may be of Petrel 13 Cartridge.');
        await page.keyboard.press('Backspace');
        await page.keyboard.type('1');
        await expect(meaning).toContainText(
          'nameplate Petrel 13 Cartridge, Merrowby Rotating Machines of Petrel 13 Cartridge, 1996 to 2012',
        );
        await expect(meaning.getByRole('status')).toHaveText(/^Merrowby, part number: nameplate\. nameplate Petrel 13 Cartridge/);
      });
      await enter(page, 'nameplate', 'trade name', typed('Lisle-Merrowby'));
      // A check digit that is wrong is a slip first: read it again, or say that it is so.
      await enter(page, 'nameplate', 'serial number, as stamped', async () => {
        await page.keyboard.type('R 0307 41377 3');
        await page.keyboard.press('Enter');
        const question = page.getByRole('group', { name: /One of them may have been misread/ });
        await expect(question.getByRole('button', { name: 'Read it again' })).toBeFocused();
        await page.keyboard.press('Tab');
        await expect(question.getByRole('button', { name: 'It is what I read' })).toBeFocused();
      });
      await enter(page, 'nameplate', 'year of make', typed('1989'));
      await verdictSettled(page);
      const found = page.getByRole('region', { name: 'Also found' });
      for (const sentence of [
        'but for its check digit: 3 is stamped where the figures before it give 2',
        'The trade name “Lisle-Merrowby” was in use 1974 to 1992, and the plate’s serial number tells 2003.',
        'The plate’s serial number tells 2003 and its year of make is 1989.',
        'built 1996 to 2012, and the plate’s year of make tells 1989.',
      ]) {
        await expect(found).toContainText(sentence);
      }
      await expect(page.locator('.ticket-text.is-must-not')).toContainText(
        'This unit must not be named by its plate before the maker has confirmed it',
      );
      await found.getByRole('button', { name: 'entry: nameplate, trade name' }).first().click();
      await expect(page.locator('[data-entry]:focus')).toContainText('“Lisle-Merrowby”');
    },
  );

  reading(
    '[O1] a listing’s text is read for what it claims; each find is confirmed, given its meaning or refused, and goes on the sheet as told',
    async ({ page }) => {
      await verdictSettled(page);
      const entries = page.getByRole('list', { name: /^Entries for/ }).getByRole('listitem');
      await tabTo(page, page.getByRole('button', { name: 'Read a listing…' }));
      await page.keyboard.press('Enter');
      const dialog = page.getByRole('dialog', { name: 'Read a listing' });
      await expect(dialog.getByRole('textbox')).toBeFocused();
      await page.keyboard.insertText(
        'Merrowby Petrel 13 Cartridge. Turbine wheel 10 blades, exducer 2 1/4 in. Twin entry, no wastegate. Plate FLAG 76736/1. Also fits Skua 13 Cartridge.',
      );
      await page.keyboard.press('Control+Enter');
      const finds = dialog.getByRole('list', { name: 'What it claims' });
      await expect(finds.getByRole('listitem')).toHaveCount(7);
      await expect(finds.getByRole('checkbox', { name: 'take Merrowby Petrel 13 Cartridge' })).toBeChecked();
      await expect(finds.getByRole('checkbox', { name: 'take Skua 13 Cartridge' })).not.toBeChecked();
      // What the text leaves open is for the reader to say; what is not believed to be there is refused.
      await expect(finds.getByRole('checkbox', { name: 'take Twin entry' })).toBeDisabled();
      await finds.getByRole('combobox', { name: 'what Twin entry is' }).selectOption('turbine housing: entry twin entry');
      await tabTo(page, finds.getByRole('checkbox', { name: 'take no wastegate' }));
      await page.keyboard.press('Space');
      await page.keyboard.press('Control+Enter');
      await expect(dialog).toHaveCount(0);
      await expect(page.getByRole('button', { name: 'Read a listing…' })).toBeFocused();
      await expect(page.getByRole('textbox', { name: 'Offered as' })).toHaveValue('Petrel 13 Cartridge');
      await expect(entered(page, /^blade count 10 told from a listing/)).toBeVisible();
      await expect(entered(page, /^exducer diameter 57.15 mm told/)).toBeVisible();
      await expect(entered(page, /^part number “FLAG 76736\/1” told/)).toBeVisible();
      await expect(page.getByRole('button', { name: /^wastegate/ })).toHaveCount(0);
      await expect(entries).toHaveCount(4);
      await verdictSettled(page);
      // Told words rule nothing out: every listed part of every slot is still there.
      for (const count of await page.locator('.slot-count').allTextContents()) expect(count).toMatch(/^(\d+) of \1 left$/);
      await page.keyboard.press('Control+z');
      await expect(entries).toHaveCount(0);
      await expect(page.getByRole('textbox', { name: 'Offered as' })).toHaveValue('');
      await page.keyboard.press('Control+y');
      await expect(entries).toHaveCount(4);
    },
  );

  withRestart(
    '[O1] what was typed and not saved, and the colours chosen, are there again when the program is started anew',
    async ({ page, host }) => {
      await verdictSettled(page);
      await page.getByRole('combobox', { name: 'Colours' }).selectOption('night');
      await featureBox(page, 'turbine wheel').focus();
      await enter(page, 'turbine wheel', 'blade count', typed('10'));
      await verdictSettled(page);
      // The window goes first, so that nothing it asks is cut short.
      await expect(page.getByRole('region', { name: 'Next check' })).toHaveAttribute('data-state', 'answered');
      await page.goto('about:blank');
      await host.restart();
      await page.goto(await host.address());
      await expect(entered(page, /^blade count 10 seen/)).toBeVisible();
      await expect(page.getByRole('toolbar', { name: 'Sheet' })).toContainText('Unsaved entries brought back');
      await expect(page.getByRole('combobox', { name: 'Colours' })).toHaveValue('dark');
    },
  );

  reading('[V1] large targets are 44 pixels and more, with figures to tap, and are remembered', async ({ page }) => {
    await verdictSettled(page);
    await page.getByRole('checkbox', { name: 'Large targets' }).check();
    await page.reload();
    await expect(page.getByRole('checkbox', { name: 'Large targets' })).toBeChecked();
    await featureBox(page, 'turbine wheel').click();
    await page.getByRole('option', { name: /^blade count/ }).click();
    const form = page.getByRole('form', { name: 'blade count: enter' });
    await form.getByRole('button', { name: '1', exact: true }).click();
    await form.getByRole('button', { name: '1', exact: true }).click();
    await form.getByRole('button', { name: 'Add', exact: true }).click();
    await expect(entered(page, /^blade count 11 seen/)).toBeVisible();
    await entered(page, /^blade count 11 seen/).click();
    for (const target of await page.locator('.sheet-column form button, .sheet-column form input:not([type="radio"])').all()) {
      expect((await target.boundingBox())?.height, (await target.textContent()) ?? '').toBeGreaterThanOrEqual(44);
    }
  });
});
