import type { PartId } from '../../reasoner/index.ts';
import type { Door } from '../driver/door.ts';
import type { Outcome } from '../trouble.ts';
import { casesOfPart, type SamplesToKeep, sampleOut, samplesKept, samplesOf } from './kept-samples.ts';
import type { CaseOfPart, KeptSample, SampleId, SamplesKept } from './samples.ts';

/** What was seen and measured at the counter of parts of the atlas. None of it alters the atlas. */
export interface SampleShelf {
  /** Of a part, those that were taken out among them, in the order they were kept. */
  of(part: PartId): Promise<Outcome<readonly KeptSample[]>>;
  /** Cases that say something of a part, the oldest first. */
  casesOf(part: PartId): Promise<Outcome<readonly CaseOfPart[]>>;
  /** All of it or nothing. Troubles: `not-found`, `sample-unfit`, `changed-since`. */
  keep(samples: SamplesToKeep, who: string): Promise<Outcome<SamplesKept>>;
  /** No longer counted. Trouble: `not-found`. */
  takeOut(id: SampleId, who: string): Promise<Outcome<null>>;
}

export const sampleShelf = ({ read, write, now }: Door): SampleShelf => ({
  of: (part) => read((reader) => samplesOf(reader, part)),
  casesOf: (part) => read((reader) => casesOfPart(reader, part)),
  keep: (samples, who) => {
    const at = now().toISOString();
    return write((reader) => samplesKept(reader, samples, { at, who }));
  },
  takeOut: (id, who) => {
    const at = now().toISOString();
    return write((reader) => sampleOut(reader, id, { at, who }));
  },
});
