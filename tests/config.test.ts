import { describe, expect, it } from 'vitest';
import { readConfig } from '../src/config.ts';

const account = {
  DISCORD_TOKEN: 'a.b.c',
  DISCORD_GUILD_ID: '1100000000000000001',
  DISCORD_CHANNEL_ID: '1100000000000000002',
};
const local = { ...account, DISCORD_API_URL: 'http://127.0.0.1:8787/api/' };

const problems = (env: Record<string, string>): readonly string[] => {
  const read = readConfig(env);
  return read.ok ? [] : read.problems;
};

describe('settings', () => {
  it('are those of the try-out when nothing is set', () => {
    expect(readConfig({ DISCORD_TOKEN: '', LOG_LEVEL: '' })).toEqual({
      ok: true,
      value: { chat: null, dataFolder: './data', logLevel: 'warn', clock: 'demo', startAt: null, port: 8787 },
    });
  });

  it('name the real service where only the account is given', () => {
    expect(readConfig(account)).toMatchObject({
      ok: true,
      value: { chat: { apiUrl: 'https://discord.com/api', token: 'a.b.c' }, clock: 'machine' },
    });
  });

  it('take another service, its clock, and an instant in any offset', () => {
    const env = {
      ...local,
      BERRIED_CLOCK: 'demo',
      BERRIED_NOW: '2027-04-12T08:00:00+02:00',
      BERRIED_DATA: '/srv/berried',
      BERRIED_PORT: '0',
    };
    expect(readConfig(env)).toEqual({
      ok: true,
      value: {
        chat: {
          apiUrl: 'http://127.0.0.1:8787/api',
          token: 'a.b.c',
          guildId: account.DISCORD_GUILD_ID,
          channelId: account.DISCORD_CHANNEL_ID,
        },
        dataFolder: '/srv/berried',
        logLevel: 'info',
        clock: 'demo',
        startAt: '2027-04-12T06:00:00.000Z',
        port: 0,
      },
    });
  });

  it('bring every problem at once', () => {
    const wrong = {
      DISCORD_API_URL: 'discord',
      DISCORD_TOKEN: 'a b',
      LOG_LEVEL: 'loud',
      BERRIED_CLOCK: 'sun',
      BERRIED_NOW: 'noon',
      BERRIED_PORT: '70000',
    };
    const said = problems({ ...wrong, DISCORD_GUILD_ID: 'home' });
    for (const name of [...Object.keys(wrong), 'DISCORD_GUILD_ID', 'DISCORD_CHANNEL_ID']) {
      expect(said.filter((text) => text.startsWith(name))).toHaveLength(1);
    }
    expect(said).toContain('DISCORD_CHANNEL_ID is missing.');
  });

  it('of an account belong together', () => {
    expect(problems({ DISCORD_GUILD_ID: account.DISCORD_GUILD_ID })).toEqual([
      'DISCORD_TOKEN is missing.',
      'DISCORD_CHANNEL_ID is missing.',
    ]);
    expect(problems({ DISCORD_API_URL: 'http://127.0.0.1:1' })).toHaveLength(3);
  });

  it.each(['https://discord.com/api', 'https://canary.discord.com/api', 'https://discordapp.com/api', undefined])(
    "do not take the demonstration's clock to the real service at %s",
    (url) => {
      const env = { ...account, BERRIED_CLOCK: 'demo', ...(url === undefined ? {} : { DISCORD_API_URL: url }) };
      expect(problems(env)).toEqual([expect.stringContaining('BERRIED_CLOCK')]);
    },
  );

  it('take it to a service whose name only looks alike', () => {
    expect(problems({ ...local, DISCORD_API_URL: 'http://notdiscord.com', BERRIED_CLOCK: 'demo' })).toEqual([]);
  });
});
