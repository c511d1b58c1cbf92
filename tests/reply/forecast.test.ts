import { describe, expect, it } from 'vitest';
import {
  addDays,
  type DevelopmentRate,
  day,
  defaultBusiness,
  type ForecastDay,
  type Instant,
  type Line,
  type LineForecast,
  supportOf,
  type Tub,
} from '../../src/domain/index.ts';
import { forecastCard, helpTopics, pickLineCard, voiceFor } from '../../src/reply/index.ts';
import { labelsOf } from '../support/answers.ts';
import { expectPhone } from './phone.ts';

const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, '2027-04-13T17:00:00.000Z' as Instant);
const line: Line = { id: 1, name: 'orange', priceMinor: 250, saleableMm: 15, holdBack: 10 };
const tub = (name: string, id = 1): Tub => ({
  id,
  name,
  lineId: 1,
  lineName: 'orange',
  litres: 25,
  netLitres: 20,
  rack: 'A',
  role: 'breeding',
  addedAt: voice.now,
  retired: null,
});
const on = (date: string, saleable: ForecastDay['saleable'], allSent = 1): ForecastDay => ({
  day: day(date),
  saleable,
  spare: saleable,
  allSent,
});
const wide = { low: 60, median: 140, high: 260 };

const usual: LineForecast = {
  line,
  from: voice.today,
  closing: { closesOn: day('2027-11-15'), opensOn: day('2028-03-11') },
  weekly: 9.5,
  isAsked: false,
  days: [
    on('2027-04-13', { low: 118, median: 142, high: 171 }),
    on('2027-05-11', wide, 0.96),
    on('2028-03-09', wide, 0.94),
  ],
  told: { ...on('2028-03-09', wide, 0.94), on: day('2028-03-11') },
  bears: { weekly: 12, until: day('2028-03-11'), isOpen: true, stock: 41, isMonth: true },
  breeders: {
    females: 34,
    males: 28,
    survival: 0.8,
    femaleShare: 0.55,
    effectiveNow: { low: 84.2, median: 97.4, high: 110 },
    from: day('2027-11-15'),
    until: day('2028-03-11'),
    wanted: 50,
  },
  overDense: { tub: tub('A3'), perLitre: 3.2, likely: day('2027-05-03'), earliest: day('2027-04-20') },
  denseUntil: day('2027-10-12'),
  oneMore: { like: tub('A3'), number: 20, adds: { low: 5, median: 38, high: 80 } },
  tubs: 4,
  uncounted: [],
  shut: [],
  sharpest: tub('A2', 2),
};

describe('the card of a forecast', () => {
  it('has the answer first, then a sentence for each question', () => {
    const card = forecastCard(voice, usual);
    expectPhone(card);
    expect(card).toMatchObject({
      title: 'orange: 12 a week until Sat 11 Mar 2028',
      why: [
        'At 9.5 a week with extras, as now: 140 (60–260) on Sat 11 Mar 2028',
        '12 a week leave 10 breeders a tub and 41 (a month), 90 % sure',
        'Hold 34 females + 28 males for 50 effective; now 97 (84–110)',
        'A3 gets over 5 a litre by Mon 3 May (one in ten: Tue 20 Apr)',
        'One more tub like A3, 20 moved: 38 (5–80) more by Sat 11 Mar 2028',
      ],
      table: [
        'day             saleable        enough',
        'Tue 13 Apr      142 (118–171)   100 %',
        'Tue 11 May      140 (60–260)    96 %',
        'Thu 9 Mar 2028  140 (60–260)    94 %',
      ],
      next: 'Hold back 16 a tub, not 10, with /setup line',
    });
    expect(labelsOf({ card })).toEqual(['New sale', 'Count A2', 'Stock']);
  });

  it('draws the months with their band, the breeders, and where it closes and opens', () => {
    expect(forecastCard(voice, usual).chart).toMatchObject({
      title: 'orange ahead, 80 % band',
      fromZero: true,
      series: [{ kind: 'band', points: [{ at: '2027-04-13', value: 142, low: 118, high: 171 }, {}, {}] }],
      limit: { value: 40, label: 'breeders 40' },
      marks: { at: ['2027-11-15'] },
    });
  });

  it.each<[string, Partial<LineForecast>, RegExp]>([
    ['what is asked and borne', { isAsked: true, weekly: 8 }, /^orange bears 8 a week until Sat 11 Mar 2028$/],
    ['what is asked and too many', { isAsked: true, weekly: 20 }, /^orange: 20 a week is too many, bears 12$/],
    ['nothing asked to be sold', { isAsked: true, weekly: 0 }, /^orange: 12 a week until/],
    ['less than one', { bears: { ...usual.bears, weekly: 0 } }, /^orange: under 1 a week until/],
    ['none', { bears: { ...usual.bears, weekly: null } }, /^orange: sell none until/],
    ['no open day', { bears: { ...usual.bears, weekly: null, isOpen: false } }, /^orange: 140 \(60–260\) on Sat 11/],
    ['closed now', { bears: { ...usual.bears, until: day('2029-03-11') } }, /^orange: 140 \(60–260\) on Sat 11/],
    ['a long name', { line: { ...line, name: 'a line whose name is thirty cha' } }, /^a line …|…: 12 a week until/],
  ])('says %s in its title', (_, change, title) => {
    const card = forecastCard(voice, { ...usual, ...change });
    expectPhone(card);
    expect(card.title).toMatch(title);
  });

  it.each<[Partial<LineForecast>, string]>([
    [{ uncounted: [tub('A4')] }, 'Count A4: it is left out'],
    [{ uncounted: [tub('A4'), tub('A5')] }, 'Count A4: 2 tubs are left out'],
    [{ isAsked: true, weekly: 13 }, 'Sell less, or count A2 in full to be surer'],
    [{ bears: { ...usual.bears, weekly: null } }, 'Sell none for now, or count A2 in full to be surer'],
    [{ bears: { ...usual.bears, weekly: null }, sharpest: null }, 'Sell none for now'],
    [{ line: { ...line, holdBack: 20 } }, 'Count A2 in full, it would narrow this most'],
  ])('leads on', (change, next) => {
    expect(forecastCard(voice, { ...usual, ...change }).next).toBe(next);
  });

  it.each<[Partial<LineForecast>, number, string]>([
    [{ weekly: 0 }, 0, 'Nothing sold, as now: 140 (60–260) on Sat 11 Mar 2028'],
    [
      { bears: { ...usual.bears, weekly: null } },
      1,
      'Even unsold, 10 breeders a tub and 41 (a month) are not sure by then',
    ],
    [{ overDense: null }, 3, 'No tub gets over 5 a litre by Tue 12 Oct'],
    [{ oneMore: null }, 4, 'One more tub: none has ten animals to spare to start it'],
  ])('puts it plainly', (change, at, words) => {
    const card = forecastCard(voice, { ...usual, ...change });
    expectPhone(card);
    expect(card.why?.[at]).toBe(words);
  });

  it('says of a crowded tub that it is so now, and of a doubtful one that it may be', () => {
    const dense = { tub: tub('A3'), perLitre: 6.12, likely: voice.today, earliest: voice.today };
    expect(forecastCard(voice, { ...usual, overDense: dense }).why?.[3]).toBe(
      'A3 is over-dense now: 6.1 a litre, 5 is the most',
    );
    const maybe = { ...dense, likely: null, earliest: day('2027-06-01') };
    expect(forecastCard(voice, { ...usual, overDense: maybe }).why?.[3]).toBe(
      'A3 may get over 5 a litre, one in ten from Tue 1 Jun on',
    );
  });

  it('says that another tub may cost animals', () => {
    const oneMore = { like: tub('A3'), number: 20, adds: { low: -5, median: 12, high: 30 } };
    expect(forecastCard(voice, { ...usual, oneMore }).why?.[4]).toContain('20 moved: 12 (−5 to 30) more by');
    const none = { ...oneMore, adds: { low: -9, median: -2, high: 3 } };
    expect(forecastCard(voice, { ...usual, oneMore: none }).why?.[4]).toContain('nothing more by');
  });

  it('stays on a phone with large figures, long names and two years', () => {
    const many = { low: 10_400, median: 12_000, high: 14_900 };
    const long = tub('a tub with a long name 24');
    const days = Array.from({ length: 27 }, (_, nth) => on(addDays(day('2027-04-13'), 28 * nth), many, 0.5));
    const card = forecastCard(voice, {
      ...usual,
      weekly: 1000,
      days,
      told: { ...on('2029-04-11', many), on: day('2029-04-13') },
      bears: { weekly: 246, until: day('2029-04-13'), isOpen: true, stock: 4343, isMonth: true },
      line: { ...line, name: 'a line whose name is thirty ch', holdBack: 120 },
      overDense: { ...(usual.overDense ?? { perLitre: 3, likely: null, earliest: null }), tub: long },
      oneMore: { like: long, number: 20, adds: { low: -100, median: 400, high: 900 } },
      breeders: { ...usual.breeders, females: 301, males: 226, effectiveNow: { low: 3700, median: 4300, high: 4600 } },
      shut: [long, long, long],
      sharpest: long,
    });
    expectPhone(card);
    expect(card.table?.length).toBeLessThanOrEqual(17);
    expect(card.table?.at(-1)).toMatch(/^not on sale, left out: a tub with/);
  });

  it('offers the lines to choose from', () => {
    const lines = Array.from({ length: 30 }, (_, nth) => ({ ...line, id: nth + 1, name: `line ${nth + 1}` }));
    expectPhone(pickLineCard(lines));
    expect(pickLineCard(lines)).toMatchObject({
      next: 'Type /forecast for the others',
      controls: [[{ kind: 'select' }]],
    });
    expect(pickLineCard([]).title).toBe('No lines yet');
  });
});

describe('the help on forecasts', () => {
  it('tells published from assumed as the rates do', () => {
    const words = helpTopics.forecast[1].join('\n');
    expect(words).toContain('Published: eggs, growth 24–32 °C; sexes 20–26 °C; broods 15–23 mm');
    const rests = (rate: DevelopmentRate, ats: readonly number[]): string[] => ats.map((at) => supportOf[rate](at));
    for (const rate of ['eggDays', 'growth'] as const) {
      expect(rests(rate, [24, 26, 28, 32])).not.toContain('assumed');
      expect(new Set(rests(rate, [16, 20, 23]))).toEqual(new Set(['assumed']));
    }
    expect(rests('femaleShare', [20, 23, 26])).not.toContain('assumed');
    expect(rests('broodSize', [16, 20, 23])).not.toContain('assumed');
    for (const rate of ['death', 'broodRest', 'crowding'] as const) expect(supportOf[rate](24)).toBe('assumed');
  });
});
