import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin('A1-A2');
});
afterEach(() => at.close());

const lastEntry = (): number => at.desk.store.entries.latest(1)[0]?.id ?? 0;

const choicesOf = ({ card }: Awaited<ReturnType<Keyboard['type']>>) =>
  (card?.controls ?? []).flat().flatMap((control) => (control.kind === 'select' ? control.options : []));

describe('/undo', () => {
  it('asks first, privately, and undoes at the button for everybody to see', async () => {
    await at.type('change log', { tub: 'A1', litres: 5 });
    const asked = await at.type('undo');
    expectPhone(asked.card);
    expect(asked.private).toBe(true);
    expect(wordsOf(asked)).toBe('Undo this?\nA1 changed 5 L\nlogged by wren 18:50\nIt is kept as undone, not deleted');
    expect(labelsOf(asked)).toEqual(['Undo it', 'Leave it']);
    expect(at.desk.store.water.changes(1, '' as never)).toHaveLength(1);

    const undone = await at.tap(asked, 'Undo it');
    expect(undone.private).toBeUndefined();
    expect(wordsOf(undone)).toContain('Undone: A1 changed 5 L\nwas logged by wren 18:50\nundone by wren 18:50');
    expect(at.desk.store.water.changes(1, '' as never)).toEqual([]);
    expect(at.rows()['water_change']).toBe(1);
    expect(wordsOf(await at.tap(asked, 'Undo it'))).toContain('That was undone already');
  });

  it("keeps another's entry from one who is no owner", async () => {
    await at.type('loss', { tub: 'A1', number: 1 }, { name: 'alder' });
    const entry = String(lastEntry());
    const refused = await at.type('undo', { entry }, { name: 'rowan', owner: false });
    expectPhone(refused.card);
    expect(wordsOf(refused)).toContain('Not undone: alder logged that');
    expect(labelsOf(await at.type('undo', { entry: `#${entry}` }))).toEqual(['Undo it', 'Leave it']);
    expect(wordsOf(await at.type('undo', {}, { name: 'rowan', owner: false }))).toContain('Nothing of yours to undo');
  });

  it('lists the other entries that the asker may undo', async () => {
    await at.type('loss', { tub: 'A1', number: 1 }, { name: 'alder' });
    await at.type('change log', { tub: 'A1', litres: 5 });
    const listed = choicesOf(await at.type('undo'));
    expect(listed[0]).toMatchObject({ label: 'A1 1 found dead, today', description: 'alder, 18:50' });
    const picked = await at.press({ act: 'undo-pick', args: {} }, { values: [listed[0]?.value ?? ''] });
    expect(wordsOf(picked)).toContain('Undo this?\nA1 1 found dead');
    expect(choicesOf(picked)).toEqual([]);

    const theirs = choicesOf(await at.type('undo', {}, { name: 'alder', owner: false }));
    expect(theirs).toEqual([]);
    const nothing = await at.type('undo', {}, { name: 'heron', owner: true });
    expect(wordsOf(nothing)).toContain('Nothing of yours to undo\nNext: Choose the entry that you mean');
    expect(choicesOf(nothing)[0]?.label).toBe('A1 changed 5 L, today');
  });

  it('leaves what later entries rest on', async () => {
    const tubs = at.desk.store.entries.latest(10).find(({ summary }) => summary.startsWith('added tubs'))?.id;
    await at.type('reading log', { tub: 'A2', ph: 7 });
    const refused = await at.type('undo', { entry: String(tubs) });
    expectPhone(refused.card);
    expect(wordsOf(refused)).toContain('Not undone: later entries rest on it');
    expect(wordsOf(refused)).toContain('Later: A2 reading, pH 7');
  });

  it.each(['whale', '999', ''])('knows no entry "%s"', async (entry) => {
    expect(wordsOf(await at.type('undo', { entry }))).toContain(`no entry called "${entry === '' ? '0' : entry}"`);
  });

  it('is offered on the answer itself', async () => {
    const logged = await at.type('count log', { tub: 'A1', saleable: 30 });
    await at.tap(await at.tap(logged, 'Undo'), 'Undo it');
    expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toContain('Animals: not counted yet');
  });
});
