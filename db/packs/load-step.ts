/** `reading` and `checking` come before anything is written, the others while one batch is; `loaded` is the last before it stands. */
export type LoadStep = 'reading' | 'checking' | 'terms' | 'names' | 'parts' | 'sheets' | 'search' | 'loaded';
