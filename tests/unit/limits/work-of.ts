import { Session } from 'node:inspector';

type Count = (by: number) => void;

/** Methods of arrays that ask a function of one element after another: each asking is counted. */
const asking = ['forEach', 'map', 'filter', 'some', 'every', 'find', 'findIndex', 'findLast', 'flatMap', 'reduce', 'sort'] as const;

const patches = (count: Count): readonly (readonly [object, PropertyKey, (was: (...args: never[]) => unknown) => unknown])[] => [
  ...asking.map(
    (name) =>
      [
        Array.prototype,
        name,
        (was: (...args: never[]) => unknown) =>
          function (this: unknown[], ask: (...args: unknown[]) => unknown, ...more: unknown[]) {
            const counted =
              typeof ask !== 'function'
                ? ask
                : function (this: unknown, ...args: unknown[]) {
                    count(1);
                    return ask.apply(this, args);
                  };
            return Reflect.apply(was, this, [counted, ...more]);
          },
      ] as const,
  ),
  ...(['slice', 'concat', 'splice', 'flat'] as const).map(
    (name) =>
      [
        Array.prototype,
        name,
        (was: (...args: never[]) => unknown) =>
          function (this: unknown[], ...args: unknown[]) {
            const made = Reflect.apply(was, this, args) as unknown[];
            // What is taken out of the middle moves all behind it.
            count(name === 'splice' ? this.length : made.length);
            return made;
          },
      ] as const,
  ),
  ...(['includes', 'indexOf'] as const).map(
    (name) =>
      [
        Array.prototype,
        name,
        (was: (...args: never[]) => unknown) =>
          function (this: unknown[], ...args: unknown[]) {
            const found = Reflect.apply(was, this, args);
            count(typeof found === 'number' && found >= 0 ? found + 1 : this.length);
            return found;
          },
      ] as const,
  ),
  [
    Array.prototype,
    Symbol.iterator,
    () =>
      function* (this: unknown[]) {
        for (let i = 0; i < this.length; i += 1) {
          count(1);
          yield this[i];
        }
      },
  ],
  [
    RegExp.prototype,
    'exec',
    (was) =>
      function (this: RegExp, text: string) {
        const from = this.global || this.sticky ? this.lastIndex : 0;
        const found = Reflect.apply(was, this, [text]) as RegExpExecArray | null;
        // A pattern that may begin anywhere is tried at every place up to where it is found; one bound to a place is tried there.
        const bound = this.sticky || (this.source.startsWith('^') && !this.multiline);
        count(1 + (found === null ? (bound ? 0 : text.length - from) : found.index + found[0].length - from));
        return found;
      },
  ],
];

/**
 * How much a piece of work looks at, counted, so that it is the same on every machine: every block of code that is run, every element a function of
 * arrays comes to or copies, and every character a pattern is tried at. What is to be counted has to be imported by `load`, after counting has begun:
 * V8 counts the blocks of what it compiles from then on.
 */
export const workOf = async <T>(load: () => Promise<T>): Promise<(run: (loaded: T) => void) => number> => {
  const session = new Session();
  session.connect();
  session.post('Profiler.enable');
  session.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true });
  const loaded = await load();
  const blocks = (): number => {
    let sum = 0;
    session.post('Profiler.takePreciseCoverage', (error, { result }) => {
      if (error !== null) throw new Error(error.message);
      for (const { url, functions } of result)
        if (!url.startsWith('node:') && !url.includes('work-of'))
          for (const { ranges } of functions) for (const range of ranges) sum += range.count;
    });
    return sum;
  };
  return (run) => {
    let looked = 0;
    const kept = patches((by) => {
      looked += by;
    }).map(([of, name, patch]) => {
      const was = Object.getOwnPropertyDescriptor(of, name) as PropertyDescriptor;
      return { of, name, was, now: { ...was, value: patch(was.value) } };
    });
    blocks();
    try {
      for (const { of, name, now } of kept) Object.defineProperty(of, name, now);
      run(loaded);
    } finally {
      for (const { of, name, was } of kept) Object.defineProperty(of, name, was);
    }
    return looked + blocks();
  };
};

/** Twice the input may be this many times the work: n log n is 2.2 at a thousand, and what is the same for any input only makes it less. */
export const mostGrowth = 2.3;

/**
 * How many times the work twice as much of it takes. What is kept from one time to the next is made before. The least of three, since V8 forgets a part
 * of its counts when it throws code away in between; work that grows as the square is near four times every time.
 */
export const growthOf = (workFor: (size: number) => number, size: number): number => {
  workFor(size);
  return Math.min(...[1, 2, 3].map(() => workFor(2 * size) / workFor(size)));
};
