/** Builds that are held side by side at most: more columns than that cannot be read beside each other. */
export const mostCompared = 5;
