import {
  ASYMMETRIC_MATCHERS_OBJECT,
  chai,
  customMatchers,
  getState,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect';

/**
 * The few words of Vitest that tests of the reasoner use, over Vitest's own `expect`: `test`, `it`, `describe`, `test.each` and `test.skipIf` put tests on a list
 * instead of running them, so that the same tests can be run again and again in one process.
 */
chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
const expect = Object.assign((value, message) => chai.expect(value, message), chai.expect, globalThis[ASYMMETRIC_MATCHERS_OBJECT]);
expect.getState = () => getState(expect);
expect.setState = (state) => setState(state, expect);
expect.setState({ assertionCalls: 0, isExpectingAssertions: false, expectedAssertionsNumber: null, equalityTesters: [] });
expect.extend = (matchers) => chai.expect.extend(expect, matchers);
expect.extend(customMatchers);

/**
 * What a test file says when it is read: the module it takes for Vitest, its tests in order, names unique, and how to end. What stands before all tests of a group is
 * done before the first of them that is run, and what stands after them at the end, which whoever ran any of them asks for.
 */
export const newSuite = () => {
  const tests = [];
  let within = groupIn(null, []);
  const begun = [];
  let finished = [];
  const add = (name, first, second) => {
    const body = typeof first === 'function' ? first : second;
    const { names } = within;
    const groups = groupsOf(within);
    const full = [...names, name].join(' > ');
    const times = tests.filter((one) => one.plain === full).length;
    const run = async () => {
      finished = [];
      try {
        for (const each of groups.filter((one) => !begun.includes(one))) {
          begun.push(each);
          for (const step of each.first) await step();
        }
        for (const { before } of groups) for (const step of before) await step();
        await body();
      } finally {
        for (const step of finished.reverse()) await step();
        for (const { after } of groups.toReversed()) for (const step of after.toReversed()) await step();
      }
    };
    tests.push({ plain: full, name: times === 0 ? full : `${full} (${times + 1})`, run });
  };
  const eachOf = (take) => (cases) => (name, first, second) => {
    const run = typeof first === 'function' ? first : second;
    for (const one of cases) take(named(name, one), () => (Array.isArray(one) ? run(...one) : run(one)));
  };
  const group = (name, body) => {
    within = groupIn(within, [...within.names, name]);
    body();
    within = within.above;
  };
  const test = Object.assign(add, { each: eachOf(add), skipIf: (skipped) => (skipped ? () => undefined : add) });
  const describe = Object.assign(group, { each: eachOf(group) });
  const hooks = {
    beforeAll: (step) => within.first.push(step),
    beforeEach: (step) => within.before.push(step),
    afterEach: (step) => within.after.push(step),
    afterAll: (step) => within.last.push(step),
  };
  const end = async () => {
    for (const { last } of begun.splice(0).reverse()) for (const step of last.toReversed()) await step();
  };
  const onTestFinished = (step) => finished.push(step);
  return { module: { test, it: test, describe, expect, ...hooks, onTestFinished }, tests, end };
};

const groupIn = (above, names) => ({ above, names, first: [], before: [], after: [], last: [] });

/** From the file itself down to the group. */
const groupsOf = (group) => (group === null ? [] : [...groupsOf(group.above), group]);

/** `%s` in the name of one of several cases is its first value. */
const named = (name, one) => name.replace('%s', () => String(Array.isArray(one) ? one[0] : one));
