import type { DrillKind, DrillLevel, FamilyId, Id, Response, Subject, TopicId } from '../../reasoner/index.ts';
import type { Version } from '../plain/version.ts';

export type LearnerId = Id<'learner'>;
export type CourseId = Id<'course'>;

/** What somebody is to learn. Null: all the atlas has. */
export interface Course {
  readonly id: CourseId;
  readonly name: string;
  readonly families: readonly FamilyId[] | null;
  readonly kinds: readonly DrillKind[] | null;
  /** Topics taken up on one day, at most. */
  readonly newPerDay: number;
}

/** A course as it is kept: saving or removing it is made against its version (H5). */
export interface KeptCourse extends Course {
  readonly version: Version;
}

export interface Learner {
  readonly id: LearnerId;
  readonly name: string;
  /** None: the whole atlas. */
  readonly course: CourseId | null;
  readonly level: DrillLevel;
}

/** A learner as they are saved: a level that is left out stays what it was, and of somebody new is *measured*. */
export type LearnerToSave = Omit<Learner, 'level'> & Partial<Pick<Learner, 'level'>>;

/** What the scheduler keeps of a topic. Times are ISO; the figures are the library's own. */
export interface Card {
  readonly due: string;
  readonly stability: number;
  readonly difficulty: number;
  readonly elapsed_days: number;
  readonly scheduled_days: number;
  readonly learning_steps: number;
  readonly reps: number;
  readonly lapses: number;
  readonly state: number;
  readonly last_review?: string;
}

export interface DrillAnswer {
  readonly topic: TopicId;
  readonly seed: number;
  readonly edition: string;
  readonly response: Response;
  readonly right: boolean;
  readonly confused: { readonly asked: Subject; readonly answered: Subject } | null;
}

/** Everything kept of one learner. */
export interface LearningRecord {
  readonly learner: Learner;
  readonly course: Course | null;
  readonly cards: ReadonlyMap<TopicId, Card>;
  /** First to last. `first`: the topic was new. */
  readonly answers: readonly (DrillAnswer & { readonly first: boolean; readonly at: string })[];
  /** The time it was read at. */
  readonly now: Date;
}
