/** How far a long answer has come: so many done, of so many where that is known. */
export interface Progress {
  readonly what: 'reasons' | 'verdicts' | 'places';
  readonly done: number;
  readonly of: number | null;
}

/**
 * Called by long answers as they go, often, and only where nothing of theirs that is kept is half done: whoever gave it may throw from it, and may ask again afterwards
 * as if it had never asked. What it does changes no answer.
 */
export type Pulse = (progress?: Progress) => void;

export const noPulse: Pulse = () => {};
