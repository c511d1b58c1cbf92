import { parseArgs } from 'node:util';
import { startLocalChat } from './startLocalChat.ts';

/**
 * Starts the stand-in chat service as its own process and prints one line of JSON that says where it is.
 *   --port N        port on 127.0.0.1, 0 (the default) takes a free one
 *   --token TEXT    token that the bot must use
 *   --state FILE    keep the channel in this file
 *   --with-parent   end when the parent's end of standard input, or its channel, closes
 */
const { values } = parseArgs({
  options: {
    port: { type: 'string', default: '0' },
    token: { type: 'string' },
    state: { type: 'string' },
    'with-parent': { type: 'boolean', default: false },
  },
});

const port = Number(values.port);
if (!Number.isInteger(port) || port < 0 || port > 65_535)
  throw new Error(`--port must be 0 to 65535, not ${values.port}`);

const { close, ...where } = await startLocalChat({
  port,
  ...(values.token === undefined ? {} : { token: values.token }),
  ...(values.state === undefined ? {} : { stateFile: values.state }),
});

let isStopping = false;
const stop = async () => {
  if (isStopping) return;
  isStopping = true;
  await close();
  process.exit(0);
};
process.on('SIGTERM', stop);
process.on('SIGINT', stop);
if (values['with-parent']) {
  // A parent that forked this process holds its channel, any other the far end of standard input.
  if (process.connected) process.on('disconnect', stop);
  else process.stdin.on('end', stop).on('close', stop).on('error', stop).resume();
}
process.stdout.write(`${JSON.stringify(where)}\n`);
