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
 * The few words of Vitest that tests of the reasoner use, over Vitest's own `expect`: `test`, `it`, `describe` and `test.each` put tests on a list
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

/** What a test file says when it is read: the module it takes for Vitest, and its tests in order, names unique. */
export const newSuite = () => {
  const tests = [];
  const within = [];
  const add = (name, first, second) => {
    const full = [...within, name].join(' > ');
    const times = tests.filter((one) => one.plain === full).length;
    tests.push({ plain: full, name: times === 0 ? full : `${full} (${times + 1})`, run: typeof first === 'function' ? first : second });
  };
  const each = (cases) => (name, first, second) => {
    const run = typeof first === 'function' ? first : second;
    for (const one of cases) add(name, () => (Array.isArray(one) ? run(...one) : run(one)));
  };
  const test = Object.assign(add, { each });
  const describe = (name, body) => {
    within.push(name);
    body();
    within.pop();
  };
  return { module: { test, it: test, describe, expect }, tests };
};
