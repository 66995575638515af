import type { Page, TestInfo } from '@playwright/test';
import { type Drill, type DrillKind, drillKinds, drillOf, judgeDrill, type Response, topicOf } from '../../reasoner/index.ts';
import { demo } from '../unit/seed/demo-atlas.ts';
import { axeClean } from './axe-clean.ts';
import { expect, saving as test } from './fixtures.ts';

test.use({ viewport: { width: 1280, height: 800 } });

/** Drills of a kind looked at one after another, and how many of them by axe and as pictures. */
const [asked, pictured] = [10, 2];

/** A learner whose course has drills of this kind alone, and their first drill on screen. */
const learnOnly = async (page: Page, kind: DrillKind): Promise<void> => {
  const learner = await page.evaluate(async (only) => {
    const course = await window.desk.ask('drills.saveCourse', {
      name: 'One kind',
      families: null,
      kinds: [only],
      newPerDay: 100,
      madeAgainst: null,
    });
    if (!course.ok) throw new Error(course.trouble.sentence);
    const saved = await window.desk.ask('drills.saveLearner', { name: 'Wenna', course: course.value.id, level: 'measured' });
    if (!saved.ok) throw new Error(saved.trouble.sentence);
    return saved.value.id;
  }, kind);
  await page.evaluate((hash) => {
    window.location.hash = hash;
  }, `#/drills/drill/${learner}`);
};

/** The drill on screen, made anew here from its topic and seed. */
const drillAsked = async (page: Page): Promise<Drill> => {
  await expect(page.locator('.drill-page')).toHaveAttribute('data-state', 'asked');
  const section = page.locator('.drill');
  const [topic, seed] = [await section.getAttribute('data-topic'), Number(await section.getAttribute('data-seed'))];
  const known = topicOf(demo, topic as Drill['topic']);
  const drill = known === undefined ? null : drillOf(demo, known, seed);
  if (drill === null) throw new Error(`${topic} ${seed} gives no drill`);
  return drill;
};

/** Every choice of so many. */
const choose = (ids: readonly string[], count: number): string[][] =>
  count === 0 ? [[]] : ids.flatMap((id, i) => choose(ids.slice(i + 1), count - 1).map((rest) => [id, ...rest]));

/** A response the reasoner does not accept. */
const wrongFor = (drill: Drill): Response => {
  const ids = drill.choices.map(({ id }) => id);
  const all =
    drill.respond.kind === 'order' ? [ids, [...ids].reverse()] : choose(ids, drill.respond.kind === 'one' ? 1 : drill.respond.count);
  const wrong = all.find((response) => !judgeDrill(demo, drill, response).right);
  if (wrong === undefined) throw new Error(`${drill.topic} ${drill.seed} has no wrong answer`);
  return wrong;
};

/** Nothing that belongs to the drill is outside the window, and nothing but the explanation scrolls. */
const allInSight = async (page: Page, what: string): Promise<void> => {
  const out = await page.evaluate(() => {
    const found: string[] = [];
    for (const one of document.querySelectorAll('html, .drills-screen, .drill-page, .drill, .drill-asked'))
      if (one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1)
        found.push(
          `${one.className || one.tagName} scrolls: ${one.scrollHeight} > ${one.clientHeight}, ${one.scrollWidth} > ${one.clientWidth}`,
        );
    for (const one of document.querySelectorAll(
      '.drill h2, .drill-shown dt, .drill-shown dd, .drill-shown svg, .drill-choice, .drill .button.main',
    )) {
      const { top, left, bottom, right } = one.getBoundingClientRect();
      if (top < 0 || left < 0 || bottom > window.innerHeight || right > window.innerWidth)
        found.push(
          `${one.className || one.tagName} “${one.textContent?.slice(0, 40)}” ends at ${Math.round(bottom)}, ${Math.round(right)}`,
        );
    }
    return found;
  });
  expect(out, what).toEqual([]);
};

const picture = async (page: Page, info: TestInfo, name: string): Promise<void> => {
  await axeClean(page, name);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await page.screenshot({ path: info.outputPath(`${name}, ${colorScheme}.png`) });
  }
};

for (const kind of drillKinds) {
  test(`[V1] drills of the kind ${kind}: question, what is shown and answers in one window, asked and answered wrongly`, async ({
    page,
  }, info) => {
    let answered = 0;
    await learnOnly(page, kind);
    for (let i = 0; i < asked; i += 1) {
      const drill = await drillAsked(page);
      const name = `${kind} ${i + 1}, ${drill.topic} ${drill.seed}`;
      expect(drill.kind).toBe(kind);
      await allInSight(page, name);
      if (i < pictured) await picture(page, info, `${kind} ${i + 1} asked`);
      for (const id of wrongFor(drill)) await page.keyboard.press(String(drill.choices.findIndex((choice) => choice.id === id) + 1));
      if (drill.respond.kind !== 'one') {
        await expect(page.getByRole('button', { name: 'Answer', exact: true })).toBeFocused();
        await allInSight(page, `${name}, chosen`);
        await page.keyboard.press('Enter');
      }
      await expect(page.locator('.drill-page')).toHaveAttribute('data-state', 'judged');
      await expect(page.getByRole('region', { name: 'Explanation' }).getByRole('heading')).toHaveText('Not this time.');
      await expect(page.getByRole('button', { name: 'Go on' })).toBeFocused();
      if (kind === 'descent') {
        const line = page.getByRole('img', { name: /^Line of descent: / });
        for (const { text } of drill.choices) await expect(line.locator('text.is-asked', { hasText: text }).first()).toBeVisible();
      }
      await allInSight(page, `${name}, answered`);
      if (i < pictured) await picture(page, info, `${kind} ${i + 1} answered wrongly`);
      await page.keyboard.press('Enter');
      answered += 1;
      // A kind of few topics is through sooner.
      await expect(page.locator('.drill-page')).not.toHaveAttribute('data-state', 'judged');
      if ((await page.locator('.drill-page').getAttribute('data-state')) === 'done') break;
    }
    expect(answered).toBeGreaterThanOrEqual(4);
  });
}
