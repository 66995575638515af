export declare const runHost: (program: string, args: readonly string[]) => Promise<{ readonly code: number; readonly opened: boolean }>;
