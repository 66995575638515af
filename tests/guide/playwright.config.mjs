import base from '../../playwright.config.ts';

/** `npm run guide`: the one story of this folder takes the pictures of the guide and writes its page. */
export default { ...base, testDir: '.', outputDir: '../../test-results', retries: 0, workers: 1 };
