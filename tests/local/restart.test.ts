import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startLocalChat } from '../../src/local/startLocalChat.ts';
import { driveChat } from '../support/chat/driver.ts';
import { startRawBot } from './rawBot.ts';

describe('with a state file', () => {
  let folder: string;
  let stateFile: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'local-chat-'));
    stateFile = join(folder, 'chat', 'state.json');
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it('channel, people, commands and files are there again after a restart, and ids go on rising', async () => {
    const before = await startRawBot({ stateFile });
    const path = `/channels/${before.local.channelId}/messages`;
    await before.send('PUT', `/applications/${before.local.applicationId}/guilds/${before.local.guildId}/commands`, [
      { name: 'plain', description: 'd' },
    ]);
    const picture = [{ name: 'a.png', bytes: new Uint8Array([7, 8, 9]) }];
    const posted = (await before.sendForm('POST', path, { content: 'kept' }, picture)).json as { id: string };
    await before.chat.addUser('wren', { mayManage: true });
    await before.chat.addChannel('packing');
    await before.close();

    const after = await startRawBot({ stateFile });
    const [message] = await after.chat.channelMessages();
    expect([message?.message.id, message?.text]).toEqual([posted.id, 'kept']);
    expect(new Uint8Array(await (await fetch(message?.files[0] ?? '')).arrayBuffer())).toEqual(
      new Uint8Array([7, 8, 9]),
    );
    const people = await after.chat.people();
    expect(people.users.map((user) => user.name)).toEqual(['rowan', 'linnet', 'passer', 'wren']);
    expect(people.channels.map((channel) => channel.name)).toEqual(['shrimp-room', 'elsewhere', 'packing']);
    expect((await after.chat.commands()).map((command) => command.name)).toEqual(['plain']);
    const next = (await after.send('POST', path, { content: 'new' })).json as { id: string };
    expect(BigInt(next.id) > BigInt(posted.id)).toBe(true);
    await after.close();
  });

  it('a button from before the restart still works', async () => {
    const before = await startRawBot({ stateFile });
    const button = { type: 2, style: 1, label: 'Done', custom_id: 'd' };
    const body = { content: 'due', components: [{ type: 1, components: [button] }] };
    await before.send('POST', `/channels/${before.local.channelId}/messages`, body);
    await before.close();
    const after = await startRawBot({ stateFile });
    const [message] = await after.chat.channelMessages();
    if (message === undefined) throw new Error('the message is gone');
    const pressed = after.chat.as('linnet').press(message, 'Done');
    await after.callback(await after.nextInteraction(), { type: 7, data: { content: 'done', components: [] } });
    expect(await pressed).toMatchObject({ kind: 'update', text: 'done' });
    await after.close();
  });

  it('a file of something else is refused, and left as it is', async () => {
    const foreign = join(folder, 'notes.json');
    writeFileSync(foreign, '{"notes":[]}');
    await expect(startLocalChat({ port: 0, stateFile: foreign })).rejects.toThrow();
    expect(readFileSync(foreign, 'utf8')).toBe('{"notes":[]}');
  });
});

describe('without a state file', () => {
  it('the channel survives a restart of the bot, and starts empty with the service', async () => {
    const first = await startRawBot();
    await first.send('POST', `/channels/${first.local.channelId}/messages`, { content: 'kept' });
    expect((await first.chat.channelMessages()).map((message) => message.text)).toEqual(['kept']);
    await first.close();
    const second = await startLocalChat({ port: 0 });
    expect(await driveChat(second.pageUrl).channelMessages()).toEqual([]);
    await second.close();
  });
});
