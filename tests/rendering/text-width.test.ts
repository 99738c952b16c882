import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { shorten, textBox, textWidth, wrap } from '../../src/rendering/marker/text-width.ts';
import { testFonts } from './fonts.ts';

describe('textWidth', () => {
  // Advance widths as the font file itself gives them, read by pdfkit's font reader.
  it.each(['regular', 'bold'] as const)('has the advance widths of the %s font file', (weight) => {
    const drawing = new PDFDocument({ font: testFonts()[weight] as never });
    drawing.fontSize(1000);
    const signs = ' !"#%&\'()*+,-./0123456789:;<=>?@AGJMQWXZ[]_abcgijklmqtwyz{|}~£§±·½¼¾⅛⅜⅝⅞×÷–—“”…€−≤ßæøéüñ';
    for (const sign of signs) {
      expect([sign, textWidth(sign, 1000, weight)]).toEqual([sign, Math.round(drawing.widthOfString(sign))]);
    }
  });

  it('never calls a line narrower than it prints, pairs set closer by the font apart', () => {
    const drawing = new PDFDocument({ font: testFonts().regular as never });
    drawing.fontSize(9.5);
    for (const line of [
      'outer back, window seat covers',
      'Tote 17⅜ × 12¾ in',
      'AVATAR To We',
      'Küchentücher',
    ]) {
      expect(textWidth(line, 9.5)).toBeGreaterThanOrEqual(drawing.widthOfString(line) - 0.01);
    }
  });

  it('turns the box of a text with it', () => {
    const style = {
      kind: 'text',
      x: 100,
      y: 60,
      text: 'iiii',
      size: 10,
      weight: 'regular',
      ink: '#000',
    } as const;
    const width = textWidth('iiii', 10);
    expect(textBox({ ...style, anchor: 'start' })).toMatchObject({ x: 100, width });
    const turned = textBox({ ...style, anchor: 'start', turned: true });
    expect(turned.height).toBe(width);
    expect(turned.y).toBeCloseTo(60 - width, 9);
    expect(turned.x).toBeCloseTo(100 - 7.4, 9);
  });
});

describe('wrap and shorten', () => {
  it('fill lines with whole words, and break a word only where it is wider than the line', () => {
    const lines = wrap('a lap too small to keep the pad in supercalifragilistic', 60, 9);
    expect(lines.join('')).toBe(
      'a lap too smallto keep the padin supercalifragilistic'.replaceAll('in s', 'ins'),
    );
    for (const line of lines) expect(textWidth(line, 9)).toBeLessThanOrEqual(60);
  });

  it('keep what is bound by spaces that do not break', () => {
    expect(wrap('to 21½\u00a0×\u00a017¾\u00a0in', 50, 9)).toEqual(['to', '21½\u00a0×\u00a017¾\u00a0in']);
  });

  it('leave off the end of what is too long', () => {
    expect(shorten('inner back', 400, 9)).toBe('inner back');
    const short = shorten('a very long name of a piece', 60, 9);
    expect(short.endsWith('…')).toBe(true);
    expect(textWidth(short, 9)).toBeLessThanOrEqual(60);
  });
});
