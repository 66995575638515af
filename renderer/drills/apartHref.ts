import type { Subject, SubjectRef } from '../../reasoner/index.ts';
import { hrefOf } from '../route/route.ts';

/** Where two things taken for each other are told apart; null where they are no families and no models, or not two. */
export const apartHref = (asked: Subject, answered: Subject): string | null => {
  const subjects = [asked, answered].flatMap(({ kind, id }): SubjectRef[] => {
    switch (kind) {
      case 'family':
      case 'model':
        return [{ kind, id } as SubjectRef];
      default:
        return [];
    }
  });
  return subjects.length === 2 && asked.id !== answered.id ? hrefOf({ screen: 'apart', subjects }) : null;
};
