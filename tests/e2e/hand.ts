import { type Keyboard, type Page, type TestInfo, test } from '@playwright/test';

/** What a key takes a practised hand. */
const msOfAKey = 90;
/** Keys a file is chosen with: some of its name typed in the system's own window, and Enter. */
const keysOfAFile = 12;

interface Deed {
  readonly what: string;
  readonly keys: number;
  /** What the program and the browser took. */
  readonly ms: number;
}

/** Counts the keys a story presses, step by step, and tells how long each step takes a practised hand: its keys, and what the program took. */
export class Hand {
  #keys = 0;
  readonly #deeds: Deed[] = [];
  readonly #info: TestInfo;

  constructor(page: Page, info: TestInfo) {
    this.#info = info;
    this.at(page);
  }

  /** Counts what is typed in this window, too. */
  at({ keyboard }: Page): Keyboard {
    const { press, type } = keyboard;
    keyboard.press = (...given) => {
      this.#keys += 1;
      return press.apply(keyboard, given);
    };
    keyboard.type = (...given) => {
      this.#keys += given[0].length;
      return type.apply(keyboard, given);
    };
    return keyboard;
  }

  /** Pressed so far. */
  get keys(): number {
    return this.#keys;
  }

  /** A file was chosen in a window of the system's, which no story can type in. */
  chooses(): void {
    this.#keys += keysOfAFile;
  }

  async does(what: string, deed: () => Promise<void>): Promise<void> {
    await test.step(what, async () => {
      const [keys, at] = [this.#keys, performance.now()];
      await deed();
      this.#deeds.push({ what, keys: this.#keys - keys, ms: performance.now() - at });
    });
  }

  /** Puts the times beside the story. */
  async tells(): Promise<void> {
    const all = { what: 'all of it', keys: sum(this.#deeds, 'keys'), ms: sum(this.#deeds, 'ms') };
    const lines = [...this.#deeds, all].map(({ what, keys, ms }) => {
      const hand = (keys * msOfAKey) / 1000;
      return `${String(keys).padStart(5)} keys ${hand.toFixed(0).padStart(4)} s + ${(ms / 1000).toFixed(1).padStart(5)} s  ${what}`;
    });
    await this.#info.attach('times', { body: `${lines.join('\n')}\n`, contentType: 'text/plain' });
    if (process.env.KINPLATE_TIMES !== undefined) console.log(lines.join('\n'));
  }
}

const sum = (deeds: readonly Deed[], what: 'keys' | 'ms'): number => deeds.reduce((all, deed) => all + deed[what], 0);
