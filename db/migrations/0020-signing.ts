import type { Migration } from './migration.ts';

/**
 * Of a pack its licence and who answers for it (null where it says nothing), and who signed it: `signer` is the public key, `signature` the text of its signature.json; both null
 * where it came unsigned. The keyring holds whom the shop trusts; a key that was withdrawn stays in it. `at` is when the row was last written.
 */
export const signing: Migration = {
  number: 20,
  name: 'signing',
  sql: `
alter table packs add column licence text;
alter table packs add column answered_by text;
alter table packs add column signer text;
alter table packs add column signature text check ((signature is null) = (signer is null));

create table keyring (
  key text not null primary key,
  name text not null,
  since text not null,
  who text not null,
  withdrawn_at text,
  withdrawn_who text check ((withdrawn_who is null) = (withdrawn_at is null)),
  at text not null
);
`,
};
