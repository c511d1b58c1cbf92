import { expect, it } from 'vitest';
import { openLog, withoutSecrets } from '../src/log.ts';

it('tokens never reach the log, wherever they stand', () => {
  const lines: string[] = [];
  const log = openLog('info', ['bot.secret.token'], (line) => lines.push(line));
  const error = Object.assign(new Error('failed with bot.secret.token'), {
    code: 10062,
    url: 'https://chat.example/api/v10/interactions/12/aW50ZXJhY3Rpb24/callback',
    requestBody: { json: { content: 'the address of a buyer' } },
  });
  log.error({ err: error, path: '/webhooks/4/Zm9sbG93dXA/messages/%40original', token: 'abc' }, 'bot.secret.token');
  const [line = ''] = lines;
  for (const secret of ['bot.secret.token', 'aW50ZXJhY3Rpb24', 'Zm9sbG93dXA', 'abc', 'buyer'])
    expect(line).not.toContain(secret);
  expect(JSON.parse(line)).toMatchObject({
    level: 'error',
    err: { code: 10062, url: 'https://chat.example/api/v10/interactions/12/[token]/callback' },
    path: '/webhooks/4/[token]/messages/%40original',
    msg: '[token]',
  });
});

it('what is no secret stays', () => {
  expect(withoutSecrets('{"msg":"/channels/12/messages"}', [''])).toBe('{"msg":"/channels/12/messages"}');
});

it('what is thrown but no error is logged too', () => {
  const lines: string[] = [];
  openLog('info', [], (line) => lines.push(line)).error({ err: 'just words' }, 'odd');
  expect(JSON.parse(lines[0] ?? '')).toMatchObject({ err: { message: 'just words' } });
});
