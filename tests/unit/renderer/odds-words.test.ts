import { describe, expect, test } from 'vitest';
import {
  sayAlike,
  sayAsAmong,
  sayBriefly,
  sayCovered,
  sayHowManyAlike,
  sayLeft,
  sayMinutes,
  saySettles,
  sayShare,
  sayTime,
} from '../../../renderer/odds/oddsWords.ts';

describe('odds in words', () => {
  test('[Q1] of several equally likely none is called the likeliest: they are named together, or counted', () => {
    const names = ['Tern 7', 'Tern 9', 'Tern 16', 'Tern 19'];
    expect(sayAlike(names, 1)).toBe('Tern 7');
    expect(sayAlike(names, 2)).toBe('Tern 7, or Tern 9');
    expect(sayAlike(names, 3)).toBe('Tern 7, or Tern 9, or Tern 16');
    expect(sayAlike(names, 84)).toBe('Tern 7, Tern 9, Tern 16 and 81 more');
    expect(sayHowManyAlike(3, 12)).toBe('The first 3 are equally likely.');
    expect(sayHowManyAlike(84, 12)).toBe('84 are equally likely; 12 of them are listed.');
  });

  test.each([
    [0, 'under 0.1 %'],
    [0.0004, 'under 0.1 %'],
    [0.0239, '2.4 %'],
    [0.0998, '10 %'],
    [0.325, '33 %'],
    [0.99, '99 %'],
    [0.9965, '99.7 %'],
    [1, 'over 99.9 %'],
  ])('[T1] a share of %d is written %s: never none, never all', (chance, words) => {
    expect(sayShare(chance)).toBe(words);
  });

  test('[Q1] minutes are rounded as a person would', () => {
    expect([0, 0.5, 1, 2.54, 13.7].map(sayMinutes)).toEqual(['no time', 'under 1 min', '1 min', '2.5 min', '14 min']);
  });

  test('[Q1] how long a check takes is one figure, with how much of it opens the unit', () => {
    expect(sayTime({ minutes: 2, openingMinutes: 0 })).toBe('2 min');
    expect(sayTime({ minutes: 2, openingMinutes: 14 })).toBe('16 min, 14 min of it to open the unit');
  });

  test('[Q1] what a check would settle is cut between clauses only, and never to nothing', () => {
    const short = 'If it reads “7 mm”, Cod 1 is out; if “6 mm”, it stays open.';
    expect(sayBriefly(short)).toBe(short);
    const long = `If it reads 1, ${'a'.repeat(60)}; if 2, ${'b'.repeat(60)}; if 3, c.`;
    expect(sayBriefly(long)).toBe(`If it reads 1, ${'a'.repeat(60)}.`);
    const only = `If it reads 1, ${'a'.repeat(200)}.`;
    expect(sayBriefly(only)).toBe(only);
    const just = `If ${'a'.repeat(48)}; if ${'b'.repeat(44)}; if c.`;
    expect(sayBriefly(just)).toBe(`If ${'a'.repeat(48)}; if ${'b'.repeat(44)}.`);
    expect(sayBriefly(just.replace('b', 'bbb'))).toBe(`If ${'a'.repeat(48)}.`);
  });

  test('[Q1] uncertainty is told as so many equally likely names, and what a check or a reading does to it as a share', () => {
    expect([saySettles(1, 2.5), saySettles(2.6, 2.5), saySettles(0.001, 2.5), saySettles(0, 0)]).toEqual([
      '40 %',
      'over 99.9 %',
      'under 0.1 %',
      'nothing',
    ]);
    expect([sayLeft(2, 0.8), sayLeft(2, 1.99), sayLeft(2, 2.1), sayLeft(2, 0.1)]).toEqual([
      'leaves 40 % of what is uncertain',
      'as uncertain as now',
      'more uncertain than now',
      'all but settled',
    ]);
    expect([0, 1, 4].map(sayAsAmong)).toEqual([
      'all but settled',
      'as unsure as a pick from 2 equally likely names',
      'as unsure as a pick from 16 equally likely names',
    ]);
  });

  test('[A5] nothing seen in a slot is said, and is no poor coverage', () => {
    expect(sayCovered(null)).toBe('nothing seen here yet');
    expect(sayCovered(0.93)).toBe('93 % of what was seen is in the atlas');
  });
});
