import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import type { Feature, Observation, Sheet, Slot } from '../../reasoner/index.ts';
import { expect, reading } from './fixtures.ts';
import { featureBox, pressUntilAt, verdictSettled } from './keyboard.ts';
import { tellPaints, watchPaints } from './paint-times.ts';

/** What a key takes a practised hand, ms: the program has that time, too. */
const delay = 90;
/** How many units are entered; told by the run that asks for them. */
const units = Number(process.env.KINPLATE_PACE ?? 0);

const seed = (name: string): unknown =>
  JSON.parse(readFileSync(fileURLToPath(new URL(`../../seed-data/${name}`, import.meta.url)), 'utf8'));
const features = new Map((seed('vocabulary/features.json') as readonly Feature[]).map((each) => [each.id, each]));
const slots = seed('vocabulary/slots.json') as readonly Slot[];
const folder = fileURLToPath(new URL('../../seed-data/demo-pack/sheets', import.meta.url));
const samples = readdirSync(folder)
  .sort()
  .map((file) => seed(path.join('demo-pack/sheets', file)) as Sheet)
  .filter(({ kind, observations }) => kind === 'found' && observations.length >= 5);

/** The keys that give a value; null where it takes more than letters and digits. */
const keysOf = ({ feature, value, sure }: Observation): string | null => {
  if (sure.kind === 'told') return null;
  switch (value.kind) {
    case 'count':
      return value.from === value.to ? String(value.from) : null;
    case 'measure':
      return String(value.value);
    case 'mark':
      return value.text;
    case 'choice':
      return features.get(feature)?.options?.find(({ id }) => id === value.option)?.name ?? null;
    default:
      return null;
  }
};

/** One entry as it is made: the feature’s name, Enter, the value, Enter. A size that is asked about once more is confirmed. */
async function enterAtPace(page: Page, slot: Slot, observation: Observation, keys: string): Promise<void> {
  const box = featureBox(page, slot.name);
  if (!(await pressUntilAt(page, box, 'ArrowDown', 20))) throw new Error(`the arrow keys never reach ${slot.name}`);
  const name = features.get(observation.feature)?.name ?? '';
  await page.keyboard.type(name, { delay });
  await page.keyboard.press('Enter');
  await expect(page.getByRole('form', { name: `${name}: enter` })).toBeVisible();
  await page.keyboard.type(keys, { delay });
  await page.keyboard.press('Enter');
  const there = page.locator('[data-entry]');
  await expect(there.or(page.getByRole('alert'))).not.toHaveCount(0);
  await expect(box).toBeFocused();
}

reading('[B7] entry after entry at a hand’s pace: how long from Enter to the verdict on the screen', async ({ page }, info) => {
  reading.skip(units === 0, 'npm run long -- pace');
  reading.setTimeout(units * 180_000);
  await watchPaints(page);
  await page.reload();
  for (const { observations } of samples.slice(0, units)) {
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('button', { name: 'New sheet' }).first().click();
    await expect(page.getByRole('textbox', { name: 'Offered as' })).toBeFocused();
    await page.keyboard.press('Enter');
    for (const slot of slots)
      for (const observation of observations.filter((each) => each.slot === slot.id)) {
        const keys = keysOf(observation);
        if (keys !== null) await enterAtPace(page, slot, observation, keys);
      }
    await verdictSettled(page);
  }
  await tellPaints(page, info);
});
