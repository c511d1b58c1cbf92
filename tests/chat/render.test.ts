import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderForm } from '../../src/chat/form.ts';
import { clipped } from '../../src/chat/limits.ts';
import { filesByMessage, render, renderWhole } from '../../src/chat/render.ts';
import { button, type Card, postKeyOf, press } from '../../src/reply/index.ts';
import { chartCard } from './fixtureCommands.ts';

const full: Card = {
  title: 'A3: watch, change 7.5 L today',
  why: ['Nitrate 40 mg/L, limit 20', 'Temperature 21.4 °C fine'],
  table: ['A1  20  21.4', 'A2  40  21.9'],
  next: 'match the new water within 2 °C',
};

describe('the words of a card', () => {
  it('are the answer in bold, why, the table in fixed width, and what next', () => {
    expect(render(full).content).toBe(
      [
        '**A3: watch, change 7.5 L today**',
        'Nitrate 40 mg/L, limit 20',
        'Temperature 21.4 °C fine',
        '```',
        'A1  20  21.4',
        'A2  40  21.9',
        '```',
        'Next: match the new water within 2 °C',
      ].join('\n'),
    );
    expect(render({ title: 'A3: fine, nothing to do' }).content).toBe('**A3: fine, nothing to do**');
  });

  it('are cut at a line where they are too many, with the block closed and the rest counted', () => {
    const table = Array.from({ length: 100 }, (_, index) => `A${index}`.padEnd(38, '.'));
    const { content } = render({ ...full, table });
    expect(content.length).toBeLessThanOrEqual(2000);
    expect(content.match(/```/g)).toHaveLength(2);
    const shown = content.split('\n').filter((line) => line.endsWith('...')).length;
    expect(content).toContain(`\n\`\`\`\n… ${100 - shown} more lines\nNext: match`);
    expect(shown).toBeGreaterThan(40);
  });

  it('keep a fence in a row from ending the block', () => {
    const { content } = render({ title: 'Tubs', table: ['``` **out**'] });
    expect(content.match(/```/g)).toHaveLength(2);
  });

  it('fit the service whatever the card says', () => {
    const text = fc.string({ maxLength: 900, unit: fc.constantFrom('a', '\\', '*', '`', '\n', '😀', ' ') });
    fc.assert(
      fc.property(fc.record({ title: text, why: fc.array(text), table: fc.array(text), next: text }), (card) => {
        const { content } = render({ ...card, mention: ['1100000000000000011'] });
        expect(content.length).toBeLessThanOrEqual(2000);
        expect((content.match(/^```$/gm) ?? []).length % 2).toBe(0);
        expect(content.endsWith('<@1100000000000000011>')).toBe(true);
      }),
    );
  });

  it('ping the named people only', () => {
    expect(render({ title: 'Morning <@2>', mention: ['1', '1'] })).toMatchObject({
      content: '**Morning \\<\\@2>**\n<@1>',
      allowedMentions: { parse: [], users: ['1'] },
    });
    expect(render({ title: '@everyone' }).allowedMentions).toEqual({ parse: [], users: [] });
  });
});

describe('controls', () => {
  const buttons = (count: number) =>
    Array.from({ length: count }, (_, tub) => button(`Tub ${tub}`, press('tub-show', { tub })));

  it('are rows of five, five of them, none twice', () => {
    const rows = render({ title: 'x', controls: [buttons(7), buttons(2), buttons(40).slice(7)] }).components;
    expect(rows.map(({ components }) => components.length)).toEqual([5, 2, 5, 5, 5]);
    const ids = rows.flatMap(({ components }) =>
      components.map((control) => 'custom_id' in control && control.custom_id),
    );
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('carry the key of a post on the first one', () => {
    const { components } = render({ title: 'x', controls: [buttons(2)] }, 'morning 2027-04-13');
    const ids = components.flatMap((row) =>
      row.components.map((control) => ('custom_id' in control ? control.custom_id : '')),
    );
    expect(ids.map(postKeyOf)).toEqual(['morning 2027-04-13', undefined]);
  });

  it("are cut to the service's lengths", () => {
    const options = Array.from({ length: 30 }, (_, index) => ({
      label: 'y'.repeat(120),
      value: `${index % 28}`,
      description: 'z'.repeat(101),
    }));
    const select = {
      kind: 'select',
      placeholder: 'p'.repeat(200),
      press: press('tub-pick', {}),
      options,
      max: 40,
    } as const;
    const [first, second] = render({
      title: 'x',
      controls: [[button('b'.repeat(90), press('home', {}))], [select]],
    }).components;
    expect(first?.components[0]).toMatchObject({ label: `${'b'.repeat(79)}…` });
    expect(second?.components[0]).toMatchObject({ placeholder: `${'p'.repeat(149)}…`, min_values: 1, max_values: 25 });
    const shown = second?.components[0];
    if (shown === undefined || !('options' in shown)) throw new Error('no select');
    expect(shown.options).toHaveLength(25);
    expect(shown.options[0]?.label).toHaveLength(100);
    expect(shown.options[0]?.description).toHaveLength(100);
    expect(render({ title: 'x', controls: [[{ ...select, options: [] }]] }).components).toEqual([]);
  });
});

it('a file goes along as it is', () => {
  const [file] = render({ title: 'Export', files: [{ name: 'sales.csv', text: 'é,1\n' }] }).files;
  expect(file).toEqual({ name: 'sales.csv', attachment: Buffer.from('é,1\n', 'utf8') });
});

it('files go into as few messages as the service takes, in their order', () => {
  const files = Array.from({ length: 23 }, (_, index) => ({ name: `${index}.csv`, text: 'a' }));
  const card = { title: 'Export', files };
  expect(filesByMessage(card).map((each) => each.length)).toEqual([10, 10, 3]);
  expect(filesByMessage(card).flat()).toHaveLength(23);
  expect(render(card).files.map(({ name }) => name)).toEqual(files.slice(0, 10).map(({ name }) => name));
  const large = { name: 'large.csv', text: 'é'.repeat(2_500_000) };
  expect(filesByMessage({ title: 'Export', files: [large, large, ...files] }).map((each) => each.length)).toEqual([
    1, 10, 10, 4,
  ]);
  expect(filesByMessage({ title: 'Export' })).toEqual([]);
});

it('a chart goes along as a picture that is told in words, after the file', async () => {
  const card = { ...chartCard, files: [{ name: 'a.csv', text: 'a' }] };
  expect(render(card).files.map(({ name }) => name)).toEqual(['a.csv']);
  const whole = await renderWhole(card, 'weekly 2027-04-18');
  expect(whole.files.map(({ name, description }) => [name, description])).toEqual([
    ['a.csv', undefined],
    ['chart.png', 'Chart of A3 nitrate, mg/L. nitrate from 10 on 6 Apr to 20 on 13 Apr.'],
  ]);
  expect({ ...whole, files: [] }).toEqual({ ...render(card, 'weekly 2027-04-18'), files: [] });
});

it("a form is a label and a text input for each field, within the service's lengths", () => {
  const form = renderForm({
    title: 't'.repeat(50),
    press: press('sheet-send', { rack: 'left rack' }),
    fields: [
      {
        id: 'lines',
        label: 'l'.repeat(50),
        hint: 'h'.repeat(120),
        lines: 'many',
        value: 'v'.repeat(5000),
        required: true,
      },
      { id: 'note', label: 'Note', lines: 'one', value: '' },
    ],
  });
  expect(form).toMatchObject({ custom_id: 'sheet-send:left%20rack', title: `${'t'.repeat(44)}…` });
  expect(form.components).toMatchObject([
    {
      type: 18,
      label: `${'l'.repeat(44)}…`,
      description: `${'h'.repeat(99)}…`,
      component: { type: 4, style: 2, required: true },
    },
    { type: 18, label: 'Note', component: { type: 4, custom_id: 'note', style: 1, required: false } },
  ]);
  expect(form.components[1]).not.toHaveProperty('component.value');
});

it('a cut text never ends in half a character or half an escape', () => {
  expect(clipped('ab😀cd', 4)).toBe('ab…');
  expect(clipped('ab\\*cd', 4)).toBe('ab…');
  expect(clipped('a\\\\cd', 4)).toBe('a\\\\…');
  expect(clipped('abcd', 4)).toBe('abcd');
});
