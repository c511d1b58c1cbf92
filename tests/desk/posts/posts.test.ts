import { afterEach, describe, expect, it } from 'vitest';
import {
  businessOf,
  eveningPost,
  logArrival,
  logReading,
  morningPost,
  paySale,
  postsBetween,
  rotaToday,
  seasonPost,
  sendParcel,
  setPartner,
  setSeason,
  weeklyPost,
} from '../../../src/desk/index.ts';
import { type Instant, type LocalDay, type MonthDay, plusMs } from '../../../src/domain/index.ts';
import { advance } from '../../../src/jobs/alarm.ts';
import { postFor } from '../../../src/jobs/posts.ts';
import { runDue } from '../../../src/jobs/runDue.ts';
import type { JobNeeds } from '../../../src/jobs/runSlot.ts';
import {
  type Card,
  customIdOf,
  eveningCard,
  morningCard,
  seasonPostCard,
  type Voice,
  voiceFor,
  weeklyCard,
} from '../../../src/reply/index.ts';
import { makeChannel, silentLog } from '../../jobs/channel.ts';
import { sellingDeskAt, taken } from '../../support/sellingDesk.ts';

type Test = ReturnType<typeof sellingDeskAt>;

const opened: Test[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

function shop(instant: string): Test {
  const test = sellingDeskAt(instant);
  opened.push(test);
  const { desk, by } = test;
  for (const name of ['wren', 'alder']) {
    taken(setPartner(desk, by('wren'), { partner: { userId: `user-${name}`, name, bot: false } }));
  }
  desk.store.settings.startedAt(desk.now());
  return test;
}

const voiceOf = ({ desk }: Test): Voice => voiceFor(businessOf(desk), desk.now());
const linesOf = (card: Card): string[] => [
  card.title,
  ...(card.why ?? []),
  ...(card.next === undefined ? [] : [card.next]),
];
const labelsOf = (card: Card): string[] =>
  (card.controls ?? []).flatMap((row) =>
    row.map((control) => (control.kind === 'button' ? control.label : control.placeholder)),
  );

const needsOf = ({ desk }: Test, channel: ReturnType<typeof makeChannel>): JobNeeds => ({
  desk,
  posting: channel.posting,
  postOf: (slot, late) => postFor(desk, slot, late),
  log: silentLog,
});

describe('the morning', () => {
  it('names the parcels to pack with their verdict, those that waited too, and what is not paid', () => {
    const test = shop('2027-04-12T08:00:00Z');
    const first = test.sell(5, { dispatchOn: '2027-04-12' as LocalDay, buyer: 'kestrel' });
    const second = test.sell(5, { dispatchOn: '2027-04-13' as LocalDay, buyer: 'plover' });
    taken(paySale(test.desk, test.by('wren'), { sale: String(first.id) }));
    test.advance({ days: 1 });
    const post = morningPost(test.desk);
    expect(post.parcels.map(({ sale, judged }) => [sale.id, judged.day, judged.verdict])).toEqual([
      [first.id, '2027-04-13', 'ask'],
    ]);
    expect(post.unpaid.map(({ id }) => id)).toEqual([second.id]);
    const card = morningCard(voiceOf(test), post);
    expect(card.title).toMatch(/^Morning, Tue 13 Apr: \d+ changes?, .*1 parcel$/);
    expect(linesOf(card)).toContain(`Not paid yet: sale ${second.id}`);
    expect(linesOf(card).join('\n')).toContain(`Parcel ${first.id}: ask.`);
    expect(labelsOf(card)).toEqual(expect.arrayContaining(['A done', 'Pack', 'Enter forecast']));
  });

  it('asks after a parcel that should have arrived, until somebody says how', () => {
    const test = shop('2027-04-12T08:00:00Z');
    const sale = test.sell(5, { dispatchOn: '2027-04-12' as LocalDay });
    taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
    taken(sendParcel(test.desk, test.by('wren'), { sale: String(sale.id) }));
    test.advance({ days: 2 });
    expect(morningPost(test.desk).unheard).toEqual([]);
    test.advance({ days: 1 });
    const card = morningCard(voiceOf(test), morningPost(test.desk));
    expect(linesOf(card)).toContain(`No word yet: parcel ${sale.id}, sent 3 days ago`);
    expect(labelsOf(card)).toContain(`Parcel ${sale.id} arrived`);
    taken(logArrival(test.desk, test.by('wren'), { sale: String(sale.id) }));
    expect(morningPost(test.desk).unheard).toEqual([]);
  });

  it('stays within twelve lines, says how late it is, and carries its key', () => {
    const test = shop('2027-04-12T08:00:00Z');
    for (const tub of ['A1', 'A2', 'B1']) {
      taken(logReading(test.desk, test.by('wren'), { tub, values: { nitrateMgL: 80, ammoniaMgL: 4, ph: 8 } }));
    }
    for (let n = 0; n < 6; n++) test.sell(5, { dispatchOn: '2027-04-13' as LocalDay });
    test.advance({ days: 1 });
    const card = morningCard(voiceOf(test), morningPost(test.desk), 130);
    expect(card.title).toMatch(/^Morning, Tue 13 Apr \(2 hours late\): /);
    expect(linesOf(card).length).toBeLessThanOrEqual(12);
    expect(linesOf(card)[1]).toMatch(/^Act: /);
    const [control] = card.controls?.[0] ?? [];
    expect(control === undefined ? '' : customIdOf(control.press, 'morning-2027-04-13')).toMatch(
      /#morning-2027-04-13$/,
    );
  });

  it('asks for a test where a bad reading is too old to believe', () => {
    const test = shop('2027-04-12T08:00:00Z');
    taken(logReading(test.desk, test.by('wren'), { tub: 'A1', values: { nitriteMgL: 1 } }));
    test.advance({ days: 14 });
    expect(linesOf(morningCard(voiceOf(test), morningPost(test.desk)))).toContain(
      'Act: A1 nitrite 1 mg/L (14 days ago)',
    );
    test.advance({ days: 1 });
    const lines = linesOf(morningCard(voiceOf(test), morningPost(test.desk)));
    expect(lines).toContain('Test again: A1 nitrite 1 mg/L (15 days ago)');
    expect(lines.join('\n')).not.toContain('Act:');
  });

  it('says when last night’s backup failed', () => {
    const test = shop('2027-04-12T08:00:00Z');
    const { jobRuns } = test.desk.store;
    const now = test.desk.now();
    jobRuns.claim('backup', '2027-04-12' as LocalDay, now);
    jobRuns.settle('backup', '2027-04-12' as LocalDay, { state: 'skipped', at: now, note: 'failed: disk full' });
    expect(linesOf(morningCard(voiceOf(test), morningPost(test.desk)))).toContain(
      "Last night's backup failed: disk full",
    );
  });
});

describe('the evening', () => {
  it('judges tomorrow’s parcels again, with the next good day on a button', () => {
    const test = shop('2027-04-12T08:00:00Z');
    const sale = test.sell(5, { dispatchOn: '2027-04-13' as LocalDay });
    taken(
      setSeason(test.desk, test.by('wren'), { name: 'spring', from: '04-13' as MonthDay, to: '04-20' as MonthDay }),
    );
    const post = eveningPost(test.desk);
    const card = post === null ? null : eveningCard(voiceOf(test), post);
    expect(card?.title).toMatch(/^Evening, Mon 12 Apr: 1 parcel not to go/);
    expect(labelsOf(card ?? { title: '' })).toContain(`Move ${sale.id} to Wed 21 Apr`);
  });

  it('says two facts in its first line, and since when a parcel is not sent', () => {
    const test = shop('2027-04-12T08:00:00Z');
    const left = test.sell(5, { dispatchOn: '2027-04-12' as LocalDay });
    taken(paySale(test.desk, test.by('wren'), { sale: String(left.id) }));
    test.advance({ days: 1 });
    const today = test.sell(5, { dispatchOn: '2027-04-13' as LocalDay });
    taken(paySale(test.desk, test.by('wren'), { sale: String(today.id) }));
    const post = eveningPost(test.desk);
    const card = post === null ? { title: '' } : eveningCard(voiceOf(test), post);
    expect(card.title).toMatch(/^Evening, Tue 13 Apr: 2 not sent, \d+ chores left$/);
    expect(linesOf(card)).toContain(`Not marked as sent: parcel ${left.id} (Mon 12 Apr) and parcel ${today.id}`);
  });

  it('is silent when nothing is left and tomorrow has no parcel', () => {
    const test = shop('2027-04-12T08:00:00Z');
    expect(eveningPost(test.desk)).not.toBeNull();
    const { desk, by } = test;
    for (const { due, tubId } of rotaToday(desk)) {
      desk.store.write(() => {
        const at = desk.now();
        const entry = desk.store.entries.add(by('wren'), 'chore-later', 'put off', at);
        const place = {
          choreId: due.chore.id,
          tubId: due.target.of === 'tub' ? tubId : null,
          rack: due.target.of === 'rack' ? due.target.rack : null,
        };
        desk.store.chores.addLater(entry, place, { at, until: '2027-04-20' as LocalDay, reason: 'quiet' });
      });
    }
    expect(eveningPost(desk)).toBeNull();
  });

  it('says what the morning would have said where that was folded', async () => {
    const test = shop('2027-04-12T18:00:00Z');
    taken(logReading(test.desk, test.by('wren'), { tub: 'A1', values: { nitrateMgL: 80 } }));
    const channel = makeChannel();
    test.advance({ days: 1, hours: -1 });
    await runDue(test.desk.now(), needsOf(test, channel));
    expect(channel.keys()).toEqual(['evening-2027-04-13']);
    const post = eveningPost(test.desk);
    expect(post?.fromMorning?.watch.map(({ tub }) => tub.name)).toEqual(['A1']);
    expect(post?.missed).toBeNull();
    expect(channel.messages[0]?.title).toMatch(/^Evening, Tue 13 Apr/);
  });
});

describe('after weeks off', () => {
  it('posts the newest of each kind, and the first says what was missed', async () => {
    const test = shop('2027-04-12T18:00:00Z');
    const cards: Card[] = [];
    const channel = makeChannel();
    const { posting } = channel;
    const needs: JobNeeds = {
      ...needsOf(test, channel),
      posting: {
        ...posting,
        publish: (card, options) => {
          cards.push(card);
          return posting.publish(card, options);
        },
      },
    };
    test.advance({ days: 20, hours: 12 });
    await runDue(test.desk.now(), needs);
    expect(channel.keys()).toEqual(['weekly-2027-05-02', 'morning-2027-05-03']);
    const [week, morning] = cards;
    expect(week?.why?.[0]).toMatch(/^The bot was off: 20 morning, 20 evening and 2 weekly posts/);
    expect(morning?.why?.some((line) => line.startsWith('The bot was off'))).toBe(false);
  });
});

describe('the week', () => {
  it('tells stock, sales, and when parcels may leave', () => {
    const test = shop('2027-04-11T14:00:00Z');
    taken(paySale(test.desk, test.by('wren'), { sale: String(test.sell(5, {}).id) }));
    const card = weeklyCard(voiceOf(test), weeklyPost(test.desk));
    expect(card.title).toBe('Week, Sun 11 Apr: 0 parcels sent, 104 free');
    expect(linesOf(card)).toEqual(
      expect.arrayContaining([
        'Sold: 1 sale, taken €10.00',
        'jade: 74 free of 100 saleable, 6 promised',
        'Next week parcels may leave Mon 12 Apr, Tue 13 Apr and Wed 14 Apr',
      ]),
    );
  });
});

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
