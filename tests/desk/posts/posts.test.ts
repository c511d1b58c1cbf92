import { afterEach, describe, expect, it } from 'vitest';
import {
  eveningPost,
  logArrival,
  logReading,
  morningPost,
  paySale,
  rotaToday,
  sendParcel,
  setSeason,
  stock,
  weeklyPost,
} from '../../../src/desk/index.ts';
import type { LocalDay, MonthDay } from '../../../src/domain/index.ts';
import { runDue } from '../../../src/jobs/runDue.ts';
import type { JobNeeds } from '../../../src/jobs/runSlot.ts';
import { type Card, customIdOf, eveningCard, morningCard, weeklyCard } from '../../../src/reply/index.ts';
import { makeChannel } from '../../jobs/channel.ts';
import { taken } from '../../support/sellingDesk.ts';
import { closeShops, labelsOf, linesOf, needsOf, shop, voiceOf } from './shop.ts';

afterEach(closeShops);

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
    // Sent, it goes on saying what it took up.
    expect(post?.missed).toMatchObject({ morning: 1, evening: 0 });
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
    const [jade, snow] = taken(stock(test.desk));
    const { low = 0, median = 0, high = 0 } = jade?.saleable ?? {};
    const card = weeklyCard(voiceOf(test), weeklyPost(test.desk));
    expect(jade?.free).toBe(test.freeUntouched() - 6);
    expect(low < 100 && high > 100).toBe(true);
    expect(card.title).toBe(`Week, Sun 11 Apr: 0 parcels sent, ${(jade?.free ?? 0) + (snow?.free ?? 0)} free`);
    expect(linesOf(card)).toEqual(
      expect.arrayContaining([
        'Sold: 1 sale, taken €10.00',
        `jade: ${jade?.free} free of ${median} (${low}–${high}) saleable, 6 promised`,
        'Next week parcels may leave Mon 12 Apr, Tue 13 Apr and Wed 14 Apr',
      ]),
    );
  });
});
