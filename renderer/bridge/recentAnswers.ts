/** What was answered last, so that whoever comes back to a sheet finds its answer where it was, while it is asked anew. */
export interface RecentAnswers<T> {
  keep(question: string, answer: T): void;
  recall(question: string): T | null;
}

/** @param most so many are kept; the one kept or recalled longest ago goes first */
export const recentAnswers = <T>(most: number): RecentAnswers<T> => {
  const kept = new Map<string, T>();
  const put = (question: string, answer: T): void => {
    kept.delete(question);
    kept.set(question, answer);
    for (const oldest of kept.keys()) {
      if (kept.size <= most) break;
      kept.delete(oldest);
    }
  };
  return {
    keep: put,
    recall: (question) => {
      const answer = kept.get(question);
      if (answer === undefined) return null;
      put(question, answer);
      return answer;
    },
  };
};
