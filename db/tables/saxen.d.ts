/** What is used of the package: it brings no types of its own. */
declare module 'saxen' {
  export class Parser {
    on(event: 'openTag', told: (name: string, attributes: () => Record<string, string>, decode: (text: string) => string) => void): this;
    on(event: 'closeTag', told: (name: string) => void): this;
    on(event: 'text', told: (text: string, decode: (text: string) => string) => void): this;
    on(event: 'cdata', told: (text: string) => void): this;
    on(event: 'error' | 'warn', told: (error: Error) => void): this;
    parse(xml: string): Error | undefined;
    stop(): void;
  }
}
