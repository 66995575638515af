import type { Page } from '@playwright/test';

/** Frames of their own, in which a grid, the tree, a wide table or the strip of what is open is moved about. */
const frames = '.table-grid, .tree-scroll, .apart-scroll, .listings-frame, .plan-table, .open-units';

/** What is wider than the room it has, so that the page or a part of it would have to be scrolled sideways. */
export const widerThanTheirRoom = (page: Page): Promise<readonly string[]> =>
  page.evaluate((apart) => {
    const wider = [...document.querySelectorAll<HTMLElement>('html, body, body *')].filter((one) => {
      if (one.closest(apart) !== null || one.matches('input, textarea, select, .unseen')) return false;
      const scrolls = one === document.documentElement || /auto|scroll/.test(getComputedStyle(one).overflowX);
      return scrolls && one.clientWidth > 0 && one.scrollWidth > one.clientWidth + 1;
    });
    return wider.map((one) => `${one.tagName.toLowerCase()}.${one.className}: ${one.scrollWidth} in ${one.clientWidth}`);
  }, frames);

/**
 * What shows a part of itself only and would have to be scrolled, which paper cannot be, or is as high as the window and not as its words, so that what comes
 * next is printed over it. To be asked while the page stands as it is printed.
 */
export const cutOnPaper = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('body *')]
      .filter((one) => {
        if (one.matches('input, textarea, select, .unseen') || !one.checkVisibility()) return false;
        const { overflowX, overflowY, containerType } = getComputedStyle(one);
        const wide = one.scrollWidth > one.clientWidth + 1;
        const long = one.scrollHeight > one.clientHeight + 2;
        return (wide && /auto|scroll/.test(overflowX)) || (long && (/auto|scroll/.test(overflowY) || containerType === 'size'));
      })
      .map(
        (one) =>
          `${one.tagName.toLowerCase()}.${one.className}: ${one.scrollWidth}×${one.scrollHeight} in ${one.clientWidth}×${one.clientHeight}`,
      ),
  );

/** Texts, as the page stands, that have not contrast enough against white paper: grounds are not printed. */
export const paleOnPaper = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const least = 3;
    const pen = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
    if (pen === null) throw new Error('no canvas to read colours by');
    const lightness = (colour: string): number => {
      pen.clearRect(0, 0, 1, 1);
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, 1, 1);
      pen.fillStyle = colour;
      pen.fillRect(0, 0, 1, 1);
      const [r = 0, g = 0, b = 0] = [...pen.getImageData(0, 0, 1, 1).data].map((part) => {
        const share = part / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const pale = new Set<string>();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const one = node.parentElement;
      if (one === null || node.textContent?.trim() === '' || one.closest('script, style, .unseen, option, button:disabled') !== null)
        continue;
      if (!one.checkVisibility({ visibilityProperty: true, opacityProperty: true }) || one.getClientRects().length === 0) continue;
      const style = getComputedStyle(one);
      const colour = one instanceof SVGElement ? style.fill : style.color;
      if (colour !== 'none' && 1.05 / (lightness(colour) + 0.05) < least)
        pale.add(`${one.tagName.toLowerCase()}.${one.getAttribute('class') ?? ''} ${colour}: ${node.textContent?.trim().slice(0, 40)}`);
    }
    return [...pale];
  });
