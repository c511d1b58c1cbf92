import { afterEach, describe, expect, it } from 'vitest';
import { postsBetween, seasonPost, setSeason } from '../../../src/desk/index.ts';
import { type Instant, type LocalDay, type MonthDay, plusMs } from '../../../src/domain/index.ts';
import { advance } from '../../../src/jobs/alarm.ts';
import { runDue } from '../../../src/jobs/runDue.ts';
import { seasonPostCard } from '../../../src/reply/index.ts';
import { makeChannel } from '../../jobs/channel.ts';
import { taken } from '../../support/sellingDesk.ts';
import { closeShops, labelsOf, linesOf, needsOf, shop, type Test, voiceOf } from './shop.ts';

afterEach(closeShops);

describe('season notices', () => {
  const winter = { name: 'winter', from: '11-15' as MonthDay, to: '03-10' as MonthDay };
  const inDays = (test: Test): (number | undefined)[] =>
    (seasonPost(test.desk)?.edges ?? []).map((edge) => edge.inDays);

  it.each([
    ['2027-10-18', 28],
    ['2027-11-01', 14],
    ['2027-11-08', 7],
    ['2027-11-14', 1],
    ['2028-02-12', 28],
    ['2028-03-10', 1],
  ])('come on %s, %i days before', (day, days) => {
    const test = shop(`${day}T10:00:00Z`);
    taken(setSeason(test.desk, test.by('wren'), winter));
    expect(inDays(test)).toEqual([days]);
  });

  it.each(['2027-10-17', '2027-11-02', '2027-11-15', '2028-03-11'])('do not come on %s', (day) => {
    const test = shop(`${day}T10:00:00Z`);
    taken(setSeason(test.desk, test.by('wren'), winter));
    expect(seasonPost(test.desk)).toBeNull();
  });

  it('name the sales that will not make it, with the next good day on a button, and the last good day', () => {
    const test = shop('2027-11-01T10:00:00Z');
    const sale = test.sell(5, { dispatchOn: '2027-11-16' as LocalDay });
    taken(setSeason(test.desk, test.by('wren'), winter));
    const post = seasonPost(test.desk);
    const card = post === null ? { title: '' } : seasonPostCard(voiceOf(test), post);
    expect(card.title).toBe('Season, Mon 1 Nov: closes in 14 days');
    expect(linesOf(card)).toContain('Last good dispatch day: Wed 10 Nov');
    expect(linesOf(card).join('\n')).toContain(`Sale ${sale.id}, Tue 16 Nov: Closed window winter`);
    expect(labelsOf(card)).toContain(`Move ${sale.id} to Mon 13 Mar`);
  });

  it('that were missed are taken up with the next, once', async () => {
    const test = shop('2027-10-30T10:00:00Z');
    taken(setSeason(test.desk, test.by('wren'), winter));
    const channel = makeChannel();
    test.advance({ days: 4 });
    await runDue(test.desk.now(), needsOf(test, channel));
    expect(channel.messages.find(({ key }) => key.startsWith('season'))?.title).toMatch(
      /^Season, Wed 3 Nov \(\d+ hours late\): closes in 12 days$/,
    );
    const clock = {
      setTo: (to: Instant) => void test.advance({ minutes: (Date.parse(to) - Date.parse(test.desk.now())) / 60_000 }),
    };
    const before = test.desk.now();
    await advance(plusMs(before, 12 * 86_400_000), needsOf(test, channel), clock);
    expect(channel.keys().filter((key) => key.startsWith('season'))).toEqual([
      'season-2027-11-03',
      'season-2027-11-08',
      'season-2027-11-14',
    ]);
    const sent = postsBetween(test.desk, before, test.desk.now()).map(({ job }) => job);
    expect(sent.filter((job) => job === 'season')).toHaveLength(2);
    expect(sent.filter((job) => job === 'morning')).toHaveLength(12);
  });
});
