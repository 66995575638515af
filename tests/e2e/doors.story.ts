import { expect, reading, test } from './fixtures.ts';

test.describe('the loopback window in a real browser', () => {
  reading('[R3] the key leaves the address at once, and a reload stays in', async ({ page }) => {
    await expect(page.getByRole('heading').first()).toBeVisible();
    expect(page.url()).not.toMatch(/#[\w-]{20,}/);
    await page.reload();
    const reply = await page.evaluate(() => window.desk.ask('atlas.vocabulary', {}));
    expect(reply.ok).toBe(true);
  });

  reading('[R3] an address opens one window; the next one is another', async ({ page, host, context }) => {
    const vocabulary = () => window.desk.ask('atlas.vocabulary', {});
    expect((await page.evaluate(vocabulary)).ok).toBe(true);
    const next = await host.address();
    const second = await context.newPage();
    await second.goto(next);
    expect((await second.evaluate(vocabulary)).ok).toBe(true);
    const third = await context.newPage();
    await third.goto(next);
    expect(await third.evaluate(vocabulary)).toMatchObject({ ok: false, trouble: { code: 'not-admitted' } });
  });

  reading('[R3] the page cannot run inline script, load from elsewhere or be framed', async ({ page, complaints }) => {
    const ran = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.__inline = true';
      document.body.append(script);
      // Not `eval` itself: what a test runs in the page is let through where the page's own code is not.
      setTimeout('window.__evaluated = true', 0);
      // Timers of one delay run in the order they were set: after this one the other has run or never will.
      await new Promise((resolve) => setTimeout(resolve, 0));
      const fetched = await fetch('http://127.0.0.1:1/').catch(() => 'refused');
      return { inline: '__inline' in window, evaluated: '__evaluated' in window, fetched };
    });
    expect(ran).toEqual({ inline: false, evaluated: false, fetched: 'refused' });
    expect(complaints.length).toBeGreaterThan(0);
    complaints.length = 0;
  });

  reading('[R3] another origin can neither read the page nor make a call', async ({ page, host, context }) => {
    expect((await page.evaluate(() => window.desk.ask('atlas.vocabulary', {}))).ok).toBe(true);
    const home = host.origin();
    const stranger = await context.newPage();
    // The same machine under another name is another origin, as a page of another site is.
    await stranger.route('http://stranger.example/', (route) =>
      route.fulfill({ contentType: 'text/html', body: '<title>stranger</title>' }),
    );
    await stranger.goto('http://stranger.example/');
    const tried = await stranger.evaluate(async (target) => {
      const attempt = (init: RequestInit) =>
        fetch(`${target}/ask/atlas.vocabulary`, init).then(
          (answer) => answer.status,
          () => 'refused',
        );
      const headers = { 'content-type': 'application/json', 'x-kinplate-token': 'x' };
      return [await attempt({}), await attempt({ method: 'POST', headers, body: '{}' }), await attempt({ method: 'POST', body: '{}' })];
    }, home);
    expect(tried).toEqual(['refused', 'refused', 'refused']);
  });

  test('[R3] when the program has gone, the window says so and loses nothing it holds', async ({ page, host, complaints }) => {
    await expect(page.getByRole('heading').first()).toBeVisible();
    expect(await host.stop()).toBe(0);
    const reply = await page.evaluate(() => window.desk.ask('atlas.vocabulary', {}));
    expect(reply).toMatchObject({ ok: false, trouble: { code: 'unreachable' } });
    complaints.length = 0;
  });
});
