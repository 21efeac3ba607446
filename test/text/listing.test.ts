import { describe, expect, it } from 'vitest';
import { listing, widthOf, wrap } from '../../src/text/listing.ts';

describe('listing', () => {
  it('aligns columns and wraps the last one under itself', () => {
    const rows = [
      ['gap', 'mm', 'bare plate surface to the nearest face of the winding'],
      ['coil_mass', 'kg', 'conductor and insulation'],
    ];
    expect(listing(rows, 46)).toBe(
      [
        '  gap        mm  bare plate surface to the',
        '                 nearest face of the winding',
        '  coil_mass  kg  conductor and insulation',
        '',
      ].join('\n'),
    );
  });

  it('leaves no blanks at line ends', () => {
    expect(listing([['a', '', '']], 40)).toBe('  a\n');
  });
});

describe('wrap', () => {
  it('lets a word longer than the width stand alone', () => {
    expect(wrap('a verylongword b c', 4)).toEqual(['a', 'verylongword', 'b c']);
  });
});

describe('widthOf', () => {
  it('follows a narrow terminal and does not run across a wide one', () => {
    expect([widthOf({ columns: 60 }), widthOf({ columns: 300 }), widthOf({})]).toEqual([60, 110, 100]);
  });
});
