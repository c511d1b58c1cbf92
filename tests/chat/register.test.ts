import { describe, expect, it } from 'vitest';
import type { Command } from '../../commands/command.ts';
import { commands } from '../../commands/index.ts';
import { areSameCommands, commandJson } from '../../src/chat/register.ts';
import { commandFaults } from './commandFaults.ts';
import { fixtureCommands } from './fixtureCommands.ts';

const [note, several] = fixtureCommands.map(commandJson);

describe('a command for the service', () => {
  it("has its options in the service's types", () => {
    expect(note).toMatchObject({
      type: 1,
      name: 'note',
      options: [
        { type: 3, name: 'text', required: true, autocomplete: true },
        { type: 10, name: 'litres', required: false },
        { type: 4, name: 'pieces' },
        { type: 5, name: 'sure' },
        { type: 6, name: 'partner' },
        {
          type: 3,
          name: 'role',
          choices: [
            { name: 'breeding', value: 'breeding' },
            { name: 'selling', value: 'selling' },
          ],
        },
      ],
    });
  });

  it('has its subcommands by the second word of their path', () => {
    expect(several?.options?.map(({ type, name }) => [type, name])).toContainEqual([1, 'question']);
  });

  it('does not take a leaf of another command', () => {
    const [first] = fixtureCommands;
    if (first === undefined) throw new Error('no fixture');
    expect(() => commandJson({ ...first, name: 'other' })).toThrow('"note" is no subcommand of /other');
  });
});

describe('comparing with what the service lists', () => {
  const ours = [note, several];
  const listed = structuredClone(ours).map((command) => ({
    ...command,
    id: '1',
    application_id: '2',
    version: '3',
    default_member_permissions: null,
    nsfw: false,
    contexts: null,
    options: command?.options?.map((option) => ({
      ...option,
      name_localizations: null,
      description_localizations: null,
    })),
  }));

  it('sees past ids, defaults and order', () => {
    expect(areSameCommands(ours, listed.toReversed())).toBe(true);
    expect(areSameCommands([], [])).toBe(true);
  });

  it.each([
    ['a description', (text: string) => text.replace('"How much"', '"How many litres"')],
    ['a type', (text: string) => text.replace('"type":10', '"type":4')],
    ['what is required', (text: string) => text.replace('"required":true', '"required":false')],
    ['a choice', (text: string) => text.replace('"value":"selling"', '"value":"apart"')],
    ['completion', (text: string) => text.replace('"autocomplete":true', '"autocomplete":false')],
  ])('sees a change of %s', (_, change) => {
    const before = JSON.stringify(listed);
    expect(change(before)).not.toBe(before);
    expect(areSameCommands(ours, JSON.parse(change(before)))).toBe(false);
  });

  it('sees one more and one less', () => {
    expect(areSameCommands(ours, listed.slice(1))).toBe(false);
    expect(areSameCommands(ours.slice(1), listed)).toBe(false);
  });
});

describe("the service's limits", () => {
  it('hold for every command of the bot', () => {
    expect(commandFaults(commands.map(commandJson))).toEqual([]);
  });

  it.each<[string, Partial<Command['leaves'][number]>, string]>([
    ['a description that is too long', { description: 'd'.repeat(101) }, '/x y: description of 101 characters'],
    ['an empty description', { description: '' }, '/x y: description of 0 characters'],
    ['a capital in an option', { options: [{ name: 'Tub', description: 'd', type: 'text' }] }, '/x y Tub: not a name'],
    [
      'a required option behind an optional one',
      {
        options: [
          { name: 'a', description: 'd', type: 'text' },
          { name: 'b', description: 'd', type: 'text', required: true },
        ],
      },
      '/x y b: required, but behind an optional one',
    ],
    [
      'an option twice',
      {
        options: [
          { name: 'a', description: 'd', type: 'text' },
          { name: 'a', description: 'd', type: 'text' },
        ],
      },
      '/x y: a name twice among a, a',
    ],
    [
      'too many choices',
      {
        options: [
          { name: 'a', description: 'd', type: 'text', choices: Array.from({ length: 26 }, (_, n) => `c${n}`) },
        ],
      },
      '/x y a: 26 choices',
    ],
    [
      'too many options',
      { options: Array.from({ length: 26 }, (_, n) => ({ name: `o${n}`, description: 'd', type: 'text' as const })) },
      '/x y: 26 options',
    ],
    [
      'a command that is too large',
      {
        options: Array.from({ length: 25 }, (_, n) => ({
          name: `o${n}`,
          description: 'd'.repeat(99),
          type: 'text' as const,
          choices: Array.from({ length: 5 }, (_c, c) => `${c}`.repeat(30)),
        })),
      },
      '/x: 10044 characters in all',
    ],
  ])('would show %s', (_, planted, fault) => {
    const leaf = { path: 'x y', description: 'd', options: [], handle: () => ({}), ...planted };
    expect(commandFaults([commandJson({ name: 'x', description: 'd', leaves: [leaf] })])).toEqual([fault]);
  });
});
