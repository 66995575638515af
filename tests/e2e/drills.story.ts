import type { Page } from '@playwright/test';
import { type Drill, drillOf, judgeDrill, type Response, topicOf } from '../../reasoner/index.ts';
import { demo } from '../unit/seed/demo-atlas.ts';
import { noViolations } from './axe-clean.ts';
import { expect, saving as test } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

test.use({ viewport: { width: 1280, height: 800 } });

const press = async (page: Page, role: 'button' | 'link', name: string | RegExp): Promise<void> => {
  await tabTo(page, page.getByRole(role, { name, exact: true }).first());
  await page.keyboard.press('Enter');
};

/** The drill on screen, made anew here from its topic and seed; what is right is asked of the reasoner. */
const drillAsked = async (page: Page): Promise<Drill> => {
  const { topic, seed } = await page.evaluate(async () => {
    const learner = window.location.hash.split('/').at(-1) as never;
    const reply = await window.desk.ask('drills.next', { learner });
    if (!reply.ok || reply.value.state !== 'drill') throw new Error('no drill is asked');
    return { topic: reply.value.drill.topic, seed: reply.value.drill.seed };
  });
  const known = topicOf(demo, topic);
  const drill = known === undefined ? null : drillOf(demo, known, seed);
  if (drill === null) throw new Error(`${topic} ${seed} gives no drill`);
  await expect(page.getByRole('heading', { name: drill.question })).toBeVisible();
  return drill;
};

const rightFor = (drill: Drill): Response => {
  const ids = drill.choices.map(({ id }) => id);
  const any = drill.respond.kind === 'one' ? ids.slice(0, 1) : drill.respond.kind === 'order' ? ids : ids.slice(0, drill.respond.count);
  return judgeDrill(demo, drill, any).accepted[0] as Response;
};

/** Number keys choose; where it takes several, Enter answers. */
const respond = async (page: Page, drill: Drill, response: Response): Promise<void> => {
  for (const id of response) await page.keyboard.press(String(drill.choices.findIndex((choice) => choice.id === id) + 1));
  if (drill.respond.kind !== 'one') {
    await expect(page.getByRole('button', { name: 'Answer', exact: true })).toBeFocused();
    await page.keyboard.press('Enter');
  }
  await expect(page.locator('.drill-page')).toHaveAttribute('data-state', 'judged');
};

test('[V1] the trainer’s story: a course set, ten drills, two wrong answers explained, what is known in one table, the tree opened at the confusion, questions and answers on two pages', async ({
  page,
}, info) => {
  await press(page, 'link', 'Drills');
  await press(page, 'link', 'Courses');
  await tabTo(page, page.getByLabel('Name', { exact: true }));
  await page.keyboard.type('Petrel and its like');
  await tabTo(page, page.getByLabel('First-time questions a day, at most'));
  await page.keyboard.press('Control+A');
  await page.keyboard.type('10');
  for (const family of ['Petrel', 'Skua', 'Northquay']) {
    await tabTo(page, page.getByRole('checkbox', { name: family, exact: true }));
    await page.keyboard.press('Space');
  }
  await noViolations(page, 'a course');
  await page.screenshot({ path: info.outputPath('course.png') });
  await press(page, 'button', 'Set the course');
  await expect(page.getByText('Petrel, Skua, Northquay · all kinds · 10 not asked before a day')).toBeVisible();

  await tabTo(page, page.getByRole('textbox', { name: 'Name of a new learner' }), true);
  await page.keyboard.type('Wenna');
  await page.keyboard.press('Enter');
  const course = page.getByRole('combobox', { name: 'Course' });
  await tabTo(page, course, true);
  await page.keyboard.type('Petrel');
  await expect(course.locator('option:checked')).toHaveText('Petrel and its like');
  // Whoever is new begins with what eyes can tell.
  const level = page.getByRole('combobox', { name: 'Level' });
  await expect(level.locator('option:checked')).toHaveText('beginner, by eye');
  await press(page, 'link', 'Drill');

  const kinds = new Set<string>();
  let wrong = 0;
  for (let i = 0; i < 10; i += 1) {
    await expect(page.locator('.drill-page')).toHaveAttribute('data-state', 'asked');
    const drill = await drillAsked(page);
    kinds.add(drill.kind);
    expect(drill.level).toBe('by eye');
    await expect(page.locator('.drill')).not.toContainText(/\d[.,]\d+ mm/);
    // At one and a half times the size the choices are still in sight.
    await page.setViewportSize({ width: 853, height: 533 });
    for (const choice of await page.locator('.drill-choice').all()) await expect(choice).toBeInViewport({ ratio: 1 });
    await page.setViewportSize({ width: 1280, height: 800 });
    const right = rightFor(drill);
    if (i < 7) await page.screenshot({ path: info.outputPath(`asked-${drill.kind}-${i}.png`), fullPage: true });
    // What was seen may agree with two of those offered: then neither is a mistake.
    const agreeing = new Set(judgeDrill(demo, drill, right).accepted.flat());
    const mistake = drill.kind === 'looks' && wrong < 2 ? drill.choices.find(({ id }) => !agreeing.has(id)) : undefined;
    await respond(page, drill, mistake === undefined ? right : [mistake.id]);
    const why = page.getByRole('region', { name: 'Explanation' });
    if (mistake === undefined) await expect(why.getByRole('heading')).toHaveText('Right.');
    else {
      wrong += 1;
      const judgement = judgeDrill(demo, drill, [mistake.id]);
      await expect(why.getByRole('heading')).toHaveText('Not this time.');
      for (const sentence of judgement.sentences) await expect(why.getByText(sentence, { exact: true }).first()).toBeVisible();
      await expect(why.locator('svg.scene').first()).toBeVisible();
      await noViolations(page, 'a wrong answer');
      await why.scrollIntoViewIfNeeded();
      await page.screenshot({ path: info.outputPath(`wrong-${wrong}.png`) });
    }
    await expect(page.getByRole('button', { name: 'Go on' })).toBeFocused();
    await page.keyboard.press('Enter');
  }
  expect(wrong).toBe(2);
  expect(kinds.size).toBe(6);
  await expect(page.getByRole('heading', { name: 'That is all for today.' })).toBeVisible();
  await expect(page.getByText('Today: 10 answered, 8 of them right.')).toBeVisible();

  await press(page, 'link', 'Who knows what');
  const known = page.getByRole('table').getByRole('row', { name: /^Petrel/ });
  await expect(known).toContainText(/(all|most|some|little|none) of it/);
  await expect(known).toContainText(/\d+ of \d+ right; last asked /);
  await expect(page.getByRole('row', { name: /^Gannet/ })).toHaveCount(0);
  await noViolations(page, 'who knows what');
  await page.screenshot({ path: info.outputPath('known.png') });

  await press(page, 'link', 'Mix-ups');
  const rows = page.getByRole('table', { name: 'What was taken for what' }).getByRole('row');
  await expect(rows).toHaveCount(3);
  await noViolations(page, 'confusions');
  await page.screenshot({ path: info.outputPath('confusions.png') });
  await press(page, 'link', /^In the tree/);
  await expect(page).toHaveURL(/#\/tree\/model\/[^/]+\/model\//);
  await expect(page.locator('.tree-body text').first()).toBeVisible();
  await page.screenshot({ path: info.outputPath('tree.png') });

  await press(page, 'link', 'Drills');
  await press(page, 'link', 'Sheet of questions');
  const from = page.getByRole('combobox', { name: 'As in the course' });
  await tabTo(page, from);
  await page.keyboard.type('Petrel');
  await expect(page.getByRole('checkbox', { name: 'Petrel', exact: true })).toBeChecked();
  await press(page, 'button', 'Make the sheet');
  const key = page.getByRole('article', { name: 'Answers' });
  await expect(key.getByRole('listitem')).toHaveCount(10);
  await expect(key).toContainText('Sheet 1 · beginner, by eye · Petrel, Skua, Northquay');
  await noViolations(page, 'the sheet of questions');
  await page.emulateMedia({ media: 'print' });
  await expect(key).toBeVisible();
  await expect(page.getByRole('button', { name: 'Make the sheet' })).toBeHidden();
  const pdf = await page.pdf({ path: info.outputPath('questions.pdf'), preferCSSPageSize: true });
  // Ten questions and their answers, on two pages.
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(2);
  await page.screenshot({ path: info.outputPath('questions-print.png'), fullPage: true });
  await page.emulateMedia({ media: 'screen' });

  // The identification key of the same families, from its own screen.
  await press(page, 'link', 'Key');
  await expect(page.locator('.key-made')).toBeVisible();
  await noViolations(page, 'the key');
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.key-made')).toBeVisible();
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeHidden();
  const wall = await page.pdf({ path: info.outputPath('key.pdf'), format: 'A4', preferCSSPageSize: true });
  expect(wall.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0).toBeGreaterThan(0);
});
