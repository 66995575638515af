import type { Page, TestInfo } from '@playwright/test';

interface Watched {
  readonly largestPaint: number;
  readonly toVerdict: readonly number[];
  readonly interactions: readonly number[];
}

/** An Enter, and how many entries were on the sheet and judged by then. */
interface Pressed {
  readonly at: number;
  readonly entries: number;
  readonly judged: number;
}

/** Watches a window from its first paint on: how long from the Enter that takes an entry to its verdict on the screen, and what the browser itself says of each key. */
export const watchPaints = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    const seen = { largestPaint: 0, toVerdict: [] as number[], interactions: [] as number[] };
    Object.assign(window, { paintTimes: seen });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) seen.largestPaint = entry.startTime;
    }).observe({ type: 'largest-contentful-paint', buffered: true });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) if (entry.name === 'keydown') seen.interactions.push(entry.duration);
    }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
    let pressed: Pressed | null = null;
    // The Enter whose entry is on the sheet, and whose verdict is not on the screen yet.
    let taken: Pressed | null = null;
    const entries = () => document.querySelectorAll('[data-entry]').length;
    /** Of how many entries the verdict is that stands there; none while the next is on its way. */
    const judged = () => Number(document.querySelector<HTMLElement>('.verdict-column')?.dataset.entries ?? Number.NaN);
    window.addEventListener(
      'keydown',
      (event) => {
        if (event.key !== 'Enter') return;
        pressed = { at: performance.now(), entries: entries(), judged: judged() };
      },
      true,
    );
    new MutationObserver(() => {
      if (pressed !== null && entries() > pressed.entries) {
        taken = pressed;
        pressed = null;
      }
      if (taken === null || !(judged() > (Number.isNaN(taken.judged) ? taken.entries : taken.judged))) return;
      const from = taken.at;
      taken = null;
      // The frame after the one in which it is drawn begins when that one is on the screen.
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => seen.toVerdict.push(performance.now() - from);
        port2.postMessage(null);
      });
    }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-entries'] });
  });

const share = (of: readonly number[], part: number): string => {
  const sorted = [...of].sort((a, b) => a - b);
  const at = sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)];
  return at === undefined ? 'none' : `${at.toFixed(0)} ms`;
};

/** Puts the times beside the story; they are told, and nothing fails by them. */
export async function tellPaints(page: Page, info: TestInfo): Promise<void> {
  const seen = await page.evaluate(() => (window as unknown as { readonly paintTimes: Watched }).paintTimes);
  const text = [
    `largest contentful paint ${seen.largestPaint.toFixed(0)} ms`,
    `Enter to painted verdict: ${seen.toVerdict.length} times, half within ${share(seen.toVerdict, 0.5)}, 95 of 100 within ${share(seen.toVerdict, 0.95)}, all within ${share(seen.toVerdict, 1)}`,
    `keys the browser held to be slow (over 16 ms): ${seen.interactions.length}, the slowest ${share(seen.interactions, 1)}`,
  ].join('\n');
  await info.attach('paints', { body: `${text}\n`, contentType: 'text/plain' });
  if (process.env.KINPLATE_TIMES !== undefined) console.log(text);
}
