import { describe, expect, test } from 'vitest';
import type { CardGuest } from '../../packages/cli/src/show/card/cardModel.js';
import { guestGroups, guestLines } from '../../packages/cli/src/show/card/guestLines.js';

const guest = (slice: number, band: string, more: Partial<CardGuest> = {}): CardGuest => ({
  wish: band,
  slice,
  band,
  peakC: 50 + slice,
  ...more,
});

describe('who gets which slice', () => {
  test('guests without names share a line where slices lie side by side, wish and band being the same', () => {
    const table = [
      guest(4, 'medium-rare'),
      guest(2, 'rare'),
      guest(1, 'rare'),
      guest(3, 'medium-rare', { wish: 'rare' }),
      guest(6, 'medium-rare'),
    ];
    expect(guestLines(table, 'metric')).toEqual([
      { who: '2 guests, rare', what: 'slices 1 to 2: rare, 51 to 52 °C' },
      { who: '1 guest, rare', what: 'slice 3: medium-rare, 53 °C' },
      { who: '1 guest, medium-rare', what: 'slice 4: medium-rare, 54 °C' },
      { who: '1 guest, medium-rare', what: 'slice 6: medium-rare, 56 °C' },
    ]);
  });

  test('guests with names each have a line, which tells where the slice is not as asked for', () => {
    const table = [
      guest(1, 'medium', { name: 'Ada' }),
      guest(2, 'medium', { name: 'Bo', wish: 'rare' }),
    ];
    expect(guestLines(table, 'us')).toEqual([
      { who: 'Ada', what: 'slice 1: medium, 124 °F' },
      { who: 'Bo', what: 'slice 2: medium, 126 °F (asked for rare)' },
    ]);
  });

  test('in groups each guest is said once, under the band of the slice', () => {
    const table = [
      guest(1, 'medium', { name: 'Ada' }),
      guest(2, 'rare', { name: 'Bo' }),
      guest(3, 'rare'),
      guest(4, 'rare'),
      guest(5, 'rare', { wish: 'blue' }),
    ];
    expect(guestGroups(table, 'metric')).toEqual([
      { what: 'medium, 51 °C', who: ['1 Ada'] },
      { what: 'rare, 52 to 55 °C', who: ['2 Bo', '3 to 4 for rare', '5 for blue'] },
    ]);
  });

  test('two may share a slice', () => {
    expect(guestLines([guest(1, 'rare'), guest(1, 'rare')], 'metric')).toEqual([
      { who: '2 guests, rare', what: 'slice 1: rare, 51 °C' },
    ]);
  });

  test('nobody makes no lines', () => {
    expect([guestLines([], 'us'), guestGroups([], 'us')]).toEqual([[], []]);
  });
});
