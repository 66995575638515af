import { defineConfig } from '@playwright/test';
import { findChromium } from './tests/run-chromium.mjs';

const chromium = findChromium();

export default defineConfig({
  testDir: 'tests/e2e',
  testMatch: '**/*.story.ts',
  outputDir: 'test-results',
  // A story is judged by what the window shows, however long that takes on a machine that has other work. The clock only ends one that hangs.
  timeout: 600_000,
  expect: { timeout: 120_000 },
  retries: 1,
  workers: 2,
  forbidOnly: Boolean(process.env.CI),
  use: {
    browserName: 'chromium',
    viewport: { width: 1360, height: 900 },
    locale: 'en-GB',
    timezoneId: 'UTC',
    screenshot: 'only-on-failure',
    actionTimeout: 120_000,
    navigationTimeout: 120_000,
    // Recording costs a third of a story's time, so only one that failed is recorded, at its second attempt.
    trace: 'on-first-retry',
    launchOptions: {
      ...(chromium === null ? {} : { executablePath: chromium }),
      // Chromium's own sandbox cannot start for root, which is what build machines run as.
      args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
    },
  },
});
