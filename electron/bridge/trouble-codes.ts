import type { DatabaseTroubleCode } from '../../db/trouble.ts';

/** Every code a trouble can have: the store's own, and those of the desk, its hosts and its commands. */
export type TroubleCode =
  | DatabaseTroubleCode
  | 'already-begun'
  | 'bug'
  | 'cancelled'
  | 'cannot-write'
  | 'closing'
  | 'contradiction'
  | 'data-folder'
  | 'desk-stopped'
  | 'drill-changed'
  | 'drill-response'
  | 'malformed'
  | 'no-joint'
  | 'no-packs'
  | 'no-such-call'
  | 'no-such-name'
  | 'no-such-part'
  | 'not-a-found-unit'
  | 'not-admitted'
  | 'not-comparable'
  | 'not-done'
  | 'not-started'
  | 'nothing-given'
  | 'nothing-to-key'
  | 'refused'
  | 'subject-count'
  | 'unreachable'
  | 'unread'
  | 'usage';
