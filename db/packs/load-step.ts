export type LoadStep =
  | 'reading'
  | 'removing the edition before'
  | 'terms'
  | 'names'
  | 'parts'
  | 'facts'
  | 'sheets'
  | 'search'
  | 'checking'
  | 'loaded';
