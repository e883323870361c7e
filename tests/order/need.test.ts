import { needOf, RoastError } from '@roastsim/core';
import { describe, expect, test } from 'vitest';

describe('who eats', () => {
  test('children count by their appetites, leftovers by heads', () => {
    expect(needOf({ guests: 4, children: [0.5, 0.25], leftoversKg: 0.1 })).toEqual({
      people: 6,
      portions: 4.75,
      portionKg: 0.227,
      platesKg: 4.75 * 0.227,
      leftoversKg: expect.closeTo(0.6, 12),
    });
  });

  test('children can eat alone', () => {
    expect(needOf({ guests: 0, children: [1] }).portions).toBe(1);
  });

  test.each([
    ['nobody', { guests: 0 }, 'missing', 'guests'],
    ['half a guest', { guests: 2.5 }, 'out-of-range', 'guests'],
    ['fewer than none', { guests: -1 }, 'out-of-range', 'guests'],
    ['a town', { guests: 501 }, 'out-of-range', 'guests'],
    ['no number', { guests: Number.NaN }, 'not-a-number', 'guests'],
    ['a child that eats nothing', { guests: 1, children: [0] }, 'out-of-range', 'children'],
    ['a child that eats for two', { guests: 1, children: [2] }, 'out-of-range', 'children'],
    ['a crumb', { guests: 1, portionKg: 0.01 }, 'out-of-range', 'portionKg'],
    ['leftovers for a week', { guests: 1, leftoversKg: 3 }, 'out-of-range', 'leftoversKg'],
  ])('%s is refused', (_what, eaters, code, field) => {
    expect(() => needOf(eaters)).toThrow(RoastError);
    try {
      needOf(eaters);
    } catch (error) {
      expect(error).toMatchObject({ code, path: [field] });
    }
  });
});
