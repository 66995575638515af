import type { Subject, SubjectRef } from '../../reasoner/index.ts';
import type { Pick } from '../route/picks.ts';
import { hrefOf } from '../route/route.ts';

/** Where two things taken for each other are told apart; null where they are no families and no models, or not two. */
export const apartHref = (asked: Subject, answered: Subject): string | null => {
  const subjects = [asked, answered].flatMap(({ kind, id }): SubjectRef[] =>
    kind === 'family' || kind === 'model' ? [{ kind, id } as SubjectRef] : [],
  );
  return subjects.length === 2 && asked.id !== answered.id ? hrefOf({ screen: 'apart', subjects }) : null;
};

/** The tree with both of them picked; null where they have no place in it. */
export const treeHref = (asked: Subject, answered: Subject): string | null => {
  const [one, other, ...none] = [asked, answered].flatMap(({ kind, id }): Pick[] =>
    kind === 'family' || kind === 'model' || kind === 'generation' || kind === 'maker' ? [{ kind, id } as Pick] : [],
  );
  if (one === undefined || other === undefined || none.length > 0 || asked.id === answered.id) return null;
  return hrefOf({ screen: 'tree', picks: [one, other] });
};
