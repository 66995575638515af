import { z } from 'zod';
import type { CourseId, KeptCourse, Learner, LearnerId } from '../../db/answers.ts';
import {
  type Drill,
  drillKinds,
  drillLevels,
  type FamilyId,
  type Judgement,
  type QuestionSheet,
  type Subject,
  type Topic,
  type TopicId,
} from '../../reasoner/index.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import { call, id, longCall, madeAgainst, nothing, version } from './call.ts';

/** How a learner's day stands; the day is that of the shop's clock. */
export interface Today {
  readonly answered: number;
  readonly right: number;
  /** Topics due by now, and new ones the course still has for today. */
  readonly due: number;
  readonly fresh: number;
}

export type NextDrill =
  | { readonly state: 'drill'; readonly drill: Drill; readonly topic: Topic; readonly why: 'due' | 'new' | 'beyond'; readonly today: Today }
  /** Nothing is due and nothing new is left for today. `next`: ISO time of the next that falls due; null where the scope gives no drills at all. */
  | { readonly state: 'done'; readonly next: string | null; readonly today: Today };

/** How a learner knows the families of their course at their level, in the atlas's order. */
export interface WhatIsKnown {
  readonly learner: Learner;
  readonly families: readonly {
    readonly family: FamilyId;
    /** Topics about it, those of them that were asked, and those whose last answer was right. */
    readonly topics: number;
    readonly asked: number;
    readonly right: number;
    /** ISO time of the last answer about it; null where none was given. */
    readonly lastAt: string | null;
  }[];
}

/** What a learner took for what, how often, and when last (ISO). */
export interface Confusion {
  readonly asked: Subject;
  readonly answered: Subject;
  readonly count: number;
  readonly lastAt: string;
}

const name = z.string().trim().min(1).max(80).refine(isWellFormed, { error: 'text without half a surrogate pair' });
const families = z.array(id<FamilyId>()).min(1).max(500).readonly().nullable();
const kinds = z.array(z.enum(drillKinds)).min(1).readonly().nullable();
const level = z.enum(drillLevels);
const seed = z.number().int().min(0).max(0x7fffffff);

export const drillCalls = {
  'drills.learners': call(nothing).returns<readonly Learner[]>(),
  /** Without an id somebody new. A level left out stays what it was, and of somebody new is *measured*. */
  'drills.saveLearner': call(
    z.strictObject({ id: id<LearnerId>().exactOptional(), name, course: id<CourseId>().nullable(), level: level.exactOptional() }),
  ).returns<Learner>(),
  /** With everything learnt. */
  'drills.removeLearner': call(z.strictObject({ id: id<LearnerId>() })).returns<null>(),
  'drills.courses': call(nothing).returns<readonly KeptCourse[]>(),
  /** Without an id a new one. */
  'drills.saveCourse': call(
    z.strictObject({ id: id<CourseId>().exactOptional(), name, families, kinds, newPerDay: z.number().int().min(0).max(500), madeAgainst }),
  ).returns<KeptCourse>(),
  'drills.removeCourse': call(z.strictObject({ id: id<CourseId>(), madeAgainst: version })).returns<null>(),
  /** `beyond`: go on past what today has, with what falls due soonest. */
  'drills.next': longCall(z.strictObject({ learner: id<LearnerId>(), beyond: z.boolean().exactOptional() })).returns<NextDrill>(),
  /** Judged by the reasoner over the drill made anew, then kept. */
  'drills.answer': call(
    z.strictObject({ learner: id<LearnerId>(), topic: id<TopicId>(), seed, edition: z.string().max(500), response: z.array(id()).max(50) }),
  ).returns<{ readonly judgement: Judgement; readonly due: string; readonly today: Today }>(),
  /** Most often confused first. */
  'drills.confusions': call(z.strictObject({ learner: id<LearnerId>() })).returns<readonly Confusion[]>(),
  /** Of everybody who learns, in turn: how each family of their course is known. */
  'drills.known': longCall(nothing).returns<readonly WhatIsKnown[]>(),
  /** The same number, families, kinds, level and count give the same sheet of one edition of the atlas. */
  'drills.questions': longCall(
    z.strictObject({ number: seed, count: z.number().int().min(1).max(100), families, kinds, level: level.exactOptional() }),
  ).returns<QuestionSheet>(),
} as const;
