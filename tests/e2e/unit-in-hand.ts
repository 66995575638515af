import { expect, type Page } from '@playwright/test';
import type { Fact, FeatureId, PartId, SlotId } from '../../reasoner/index.ts';
import { demoPack } from '../unit/seed/demo-atlas.ts';

/** A unit on the counter: which part of the demo pack sits in which slot. What has no part cannot be seen. */
export type UnitInHand = ReadonlyMap<SlotId, PartId>;

/** The parts a model was built with, the first listed of each slot, with some of them changed since. */
export const unitBuiltAs = (model: string, changed: Readonly<Record<string, string>>): UnitInHand => {
  const own = new Map<string, string>();
  for (const { slot, part } of demoPack.allowed.filter((one) => one.model === model)) if (!own.has(slot)) own.set(slot, part);
  for (const [slot, part] of Object.entries(changed)) own.set(slot, part);
  for (const part of own.values()) if (!demoPack.parts.some(({ id }) => id === part)) throw new Error(`the demo pack has no part ${part}`);
  return own as ReadonlyMap<string, string> as UnitInHand;
};

/** What is there to be read of a feature by its name in a slot by its name; null when there is nothing to look at, or the pack does not know. */
export const readingOf = (unit: UnitInHand, slotName: string, featureName: string): { feature: FeatureId; fact: Fact | null } => {
  const slot = demoPack.slots.find(({ name }) => name === slotName);
  const feature = demoPack.features.find((one) => one.slot === slot?.id && one.name === featureName);
  if (slot === undefined || feature === undefined) throw new Error(`the demo pack has no ${featureName} of a ${slotName}`);
  const part = demoPack.parts.find(({ id }) => id === unit.get(slot.id));
  const fact = part?.facts[feature.id];
  return { feature: feature.id, fact: fact === undefined || fact.kind === 'not known' ? null : fact };
};

/** Gives a reading by keyboard to the editor that is open, without taking it yet. */
export const giveReading = async (page: Page, feature: FeatureId, fact: Fact): Promise<void> => {
  switch (fact.kind) {
    case 'count':
      return page.keyboard.type(String(fact.from));
    case 'measure':
      return page.keyboard.type(String(fact.nominal));
    case 'mark': {
      const [letters] = fact.anyOf;
      if (letters !== undefined) return page.keyboard.type(letters);
      await page.keyboard.press('Tab');
      return page.keyboard.press('Space');
    }
    case 'presence':
      return page.keyboard.press(fact.present ? 'Space' : 'ArrowRight');
    case 'choice': {
      const options = demoPack.features.find(({ id }) => id === feature)?.options ?? [];
      await page.keyboard.press('Space');
      for (let at = options.findIndex(({ id }) => id === fact.anyOf[0]); at > 0; at -= 1) await page.keyboard.press('ArrowRight');
      return;
    }
    case 'not known':
      throw new Error(`nothing is known of ${feature}`);
  }
};

/** The editor that is open: what it asks for, and in which slot. */
export const openEditor = async (page: Page): Promise<{ slot: string; feature: string }> => {
  const form = page.getByRole('form', { name: /: enter$/ });
  await expect(form).toBeVisible();
  const label = (await form.getAttribute('aria-label')) ?? '';
  const slot = await form.locator('xpath=ancestor::section').first().getByRole('heading', { level: 3 }).textContent();
  return { slot: slot ?? '', feature: label.replace(/: enter$/, '') };
};
