import { describe, expect, test } from 'vitest';
import {
  sayAlike,
  sayAsAmong,
  sayCovered,
  sayHowManyAlike,
  sayLeft,
  sayMinutes,
  sayOdds,
  saySettles,
  sayShare,
} from '../../../renderer/odds/oddsWords.ts';

describe('odds in words', () => {
  test.each([
    [0.9, 'about 9 to 1 for'],
    [0.1, 'about 9 to 1 against'],
    [1 / 3, 'about 2 to 1 against'],
    [0.6, 'about 3 to 2 for'],
    [0.5, 'about even'],
    [0.52, 'about even'],
    [0.999, 'about 1000 to 1 for'],
    [0.9999, 'over 1000 to 1 for'],
    [1, 'over 1000 to 1 for'],
    [1 + 1e-12, 'over 1000 to 1 for'],
    [-1e-12, 'over 1000 to 1 against'],
    [0, 'over 1000 to 1 against'],
  ])('[Q1] a chance of %d is %s', (chance, words) => {
    expect(sayOdds(chance)).toBe(words);
  });

  test('[Q1] of several equally likely none is called the likeliest: they are named together, or counted', () => {
    const names = ['Tern 7', 'Tern 9', 'Tern 16', 'Tern 19'];
    expect(sayAlike(names, 1)).toBe('Tern 7');
    expect(sayAlike(names, 2)).toBe('Tern 7, or Tern 9');
    expect(sayAlike(names, 3)).toBe('Tern 7, or Tern 9, or Tern 16');
    expect(sayAlike(names, 84)).toBe('Tern 7, Tern 9, Tern 16 and 81 more');
    expect(sayHowManyAlike(3, 12)).toBe('The first 3 are equally likely.');
    expect(sayHowManyAlike(84, 12)).toBe('84 are equally likely; 12 of them are listed.');
  });

  test('[Q1] odds for something and against its opposite are the same figure', () => {
    for (let chance = 0.005; chance < 0.5; chance += 0.0073) {
      expect(sayOdds(1 - chance).replace('for', 'against')).toBe(sayOdds(chance));
    }
  });

  test('[Q1] the spoken figure is never further from the chance than one step: read back, it is within a fifth of the ratio', () => {
    for (let chance = 0.002; chance < 0.5; chance += 0.0031) {
      const said = sayOdds(chance);
      const [, a, b] = /^about (\d+) to (\d+) against$/.exec(said) ?? ['', '1', '1'];
      expect(Math.abs(Math.log((1 - chance) / chance / (Number(a) / Number(b)))), said).toBeLessThan(Math.log(1.26));
    }
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
      'as unsure as among 2 equally likely names',
      'as unsure as among 16 equally likely names',
    ]);
  });

  test('[A5] nothing seen in a slot is said, and is no poor coverage', () => {
    expect(sayCovered(null)).toBe('nothing seen here yet');
    expect(sayCovered(0.93)).toBe('93 % of what was seen is known');
  });
});
