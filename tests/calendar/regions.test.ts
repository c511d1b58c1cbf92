import { describe, expect, it } from 'vitest';
import { isRegion, regionCode, regionsLike } from '../../src/calendar/index.ts';

describe('regions', () => {
  it.each(['NL', 'GB-ENG', 'US-OR', 'AT-9', 'NZ', 'de-by', ' gb-sct ', 'DE-BY-A', 'UK'])('%s is one', (text) => {
    expect(isRegion(text)).toBe(true);
  });

  it.each(['', 'XX', 'GB-XXX', 'Netherlands', 'GB-ENG-X', 'NL-NL-NL-NL', '-', 'GB-'])('"%s" is none', (text) => {
    expect(isRegion(text)).toBe(false);
  });

  it('are stored in one spelling', () => {
    expect(regionCode('gb-eng')).toBe('GB-ENG');
    expect(regionCode('uk-sct')).toBe('GB-SCT');
    expect(regionCode('ck-aitutaki')).toBe('CK-Aitutaki');
    expect(regionCode('nowhere')).toBeUndefined();
  });

  it.each([
    ['england', 'GB-ENG'],
    ['Scotland', 'GB-SCT'],
    ['oregon', 'US-OR'],
    ['netherlands', 'NL'],
    ['uk', 'GB'],
    ['us-or', 'US-OR'],
    ['bayern', 'DE-BY'],
    ['zealand', 'NZ'],
  ])('are found by name: %s', (typed, code) => {
    expect(regionsLike(typed)[0]?.code).toBe(code);
  });

  it('are each a region, at most as many as asked for, none for nothing', () => {
    const found = regionsLike('united', 3);
    expect(found).toHaveLength(3);
    expect(found.every((region) => isRegion(region.code))).toBe(true);
    expect(regionsLike('  ')).toEqual([]);
    expect(regionsLike('qqqq')).toEqual([]);
  });
});
