import { describe, expect, it } from 'vitest';
import { drawProblems } from '../../src/study/draw-problems.ts';

function draw(text: string, offset: number, length = 1): string {
  return drawProblems('rig.yaml', text, [{ code: 'x', found: 'this', wanted: 'that', offset, length }]);
}

describe('drawProblems', () => {
  it('shows file, line and column, what was found and wanted, and the line with a caret', () => {
    expect(draw('a: 1\nwire: 2 kg\n', 13, 2)).toMatchInlineSnapshot(`
      "rig.yaml:2:9: found this; wanted that
        2 | wire: 2 kg
          |         ^^"
    `);
  });

  it('keeps the caret in place behind tabs and emoji, and counts columns in characters', () => {
    expect(draw('a:\t"😀" x', 8)).toBe(
      'rig.yaml:1:8: found this; wanted that\n  1 | a:    "😀" x\n    |           ^',
    );
  });

  it('cuts a long line around the caret', () => {
    const [, line, caret] = draw(`${'a'.repeat(500)}X${'b'.repeat(500)}`, 500).split('\n');
    expect(line!.length).toBeLessThan(110);
    expect(line![caret!.indexOf('^')]).toBe('X');
    expect(line).toMatch(/…a+Xb+…$/);
  });

  it('ends the caret with the line', () => {
    expect(draw('a: |\n  text\n', 3, 9)).toMatch(/ {4}\| {4}\^$/);
  });

  it('points behind the end of a file that stops too early, and into an empty one', () => {
    expect(draw('', 0)).toBe('rig.yaml:1:1: found this; wanted that\n  1 |\n    | ^');
    expect(draw('a: "b\n', 99)).toMatch(/^rig\.yaml:2:1:/);
  });

  it('lets nothing of the file move the terminal', () => {
    const drawn = drawProblems('a\u001bb', 'x: \u001b[31m\u0007\r\n', [
      { code: 'x', found: '\u001b[2J', wanted: 'text', offset: 3, length: 1 },
    ]);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    expect(drawn.replaceAll('\n', '')).not.toMatch(/[\u0000-\u001f]/);
  });

  it('reads bytes, whatever they are', () => {
    expect(
      drawProblems('f', Uint8Array.of(0xff, 0x00, 0x0a), [
        { code: 'x', found: 'a', wanted: 'b', offset: 1, length: 1 },
      ]),
    ).toBe('f:1:2: found a; wanted b\n  1 | \ufffd\ufffd\n    |  ^');
  });
});
