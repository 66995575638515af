import { expect, test } from 'vitest';
import type { Verdict } from '../../../reasoner/index.ts';
import { tagHead, ticketText } from '../../../renderer/verdict/ticketText.ts';

const clause = (text: string) => ({ text, because: [] });
const verdict = {
  claim: { text: 'Petrel 13 Cartridge' } as Verdict['claim'],
  ticket: { may: [clause('It may be called this.'), clause('Its wheel is that.')], mustNot: [clause('It must not be called so.')] },
  cautions: ['A rotor turns fast enough to burst.'],
};

test('[W1] what is copied is the whole tag: case, day and claim, every clause on a line of its own under its head, the cautions last', () => {
  expect(ticketText({ number: 'P-12', day: '29 Nov 2026' }, verdict)).toBe(
    [
      'Case P-12 · 29 Nov 2026 · offered as “Petrel 13 Cartridge”',
      '',
      'How it may be described',
      'It may be called this.',
      'Its wheel is that.',
      '',
      'How it must not be described',
      'It must not be called so.',
      '',
      'Cautions',
      'A rotor turns fast enough to burst.',
    ].join('\n'),
  );
});

test('[W1] what there is none of has no head on the tag: no case before it is saved, no claim, no clause', () => {
  expect(tagHead({ number: null, day: '29 Nov 2026' }, { claim: null })).toBe('29 Nov 2026');
  expect(
    ticketText({ number: null, day: '29 Nov 2026' }, { ...verdict, claim: null, ticket: { may: verdict.ticket.may, mustNot: [] } }),
  ).toBe(
    '29 Nov 2026\n\nHow it may be described\nIt may be called this.\nIts wheel is that.\n\nCautions\nA rotor turns fast enough to burst.',
  );
});
