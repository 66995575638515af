import type { Page } from '@playwright/test';

/** Holds every call of one name back from the desk until it is let go: a story of what is done meanwhile must not depend on how quick the desk is. */
export async function holdCall(page: Page, call: string): Promise<() => void> {
  let letGo = (): void => undefined;
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  await page.route(`**/ask/${call}`, async (route) => {
    await held;
    await route.continue();
  });
  return letGo;
}
