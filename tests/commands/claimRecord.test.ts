import { afterEach, beforeEach, expect, it } from 'vitest';
import { claim } from '../../commands/claim.ts';
import { handle } from '../../commands/index.ts';
import { logArrival, paySale, sendParcel } from '../../src/desk/index.ts';
import { day } from '../../src/domain/index.ts';
import { labelsOf, linesOf } from '../support/answers.ts';
import { sellingDeskAt, taken } from '../support/sellingDesk.ts';
import { ctxOf, typed } from '../support/typing.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-15T09:00:00Z');
  test.sell(20, { dispatchOn: day('2027-03-15') });
  taken(paySale(test.desk, test.by('wren'), { sale: '1' }));
  taken(sendParcel(test.desk, test.by('wren'), { sale: '1', anyway: true }));
  test.advance({ days: 1 });
});
afterEach(() => test.close());

function run(path: string, raw: Record<string, unknown> = {}) {
  const leaf = claim.leaves.find((each) => each.path === path);
  if (leaf === undefined) throw new Error(path);
  return typed(test, leaf, raw);
}
async function pushed(answer: Awaited<ReturnType<typeof run>>, label: string) {
  const control = (answer.card?.controls ?? []).flat().find((each) => each.kind === 'button' && each.label === label);
  if (control === undefined) throw new Error(`no button ${label}`);
  return handle(control.press, ctxOf(test, 'alder'));
}

it('shows the record to both, and turns to the tubs and to other months', async () => {
  taken(logArrival(test.desk, test.by('wren'), { sale: '1', dead: 1 }));
  const shown = await run('claim record');
  expect(shown.private).toBeUndefined();
  expect(linesOf(shown).slice(0, 2)).toEqual([
    '12 months: 22 of 23 arrived alive',
    'With so few sent, true survival could be as low as 79 %',
  ]);
  expect(labelsOf(shown)).toEqual(['By tub', '3 months']);
  const byTub = await pushed(shown, 'By tub');
  expect(byTub.card?.table?.slice(1)).toEqual(['A1                22/23   96   79–99.2']);
  const shorter = await pushed(byTub, '3 months');
  expect(linesOf(shorter)[0]).toBe('3 months: 22 of 23 arrived alive');
  expect(labelsOf(shorter)).toEqual(['By line and way', '12 months']);
});

it('is reached from a claim that was answered, and refuses what can not be', async () => {
  taken(logArrival(test.desk, test.by('wren'), { sale: '1', dead: 9, photo: 'p.jpg' }));
  const settled = await run('claim settle', { sale: '1', how: 'refund' });
  expect(linesOf(await pushed(settled, 'Record'))[0]).toBe('12 months: 14 of 23 arrived alive');
  expect(await run('claim record', { months: 0 })).toMatchObject({
    private: true,
    card: { title: 'Not logged: 0 months cannot be right' },
  });
});
