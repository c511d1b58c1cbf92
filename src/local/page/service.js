/** Everything the page asks of the stand-in, each as one call. */

async function ask(method, path, body) {
  const response = await fetch(`/local/${path}`, {
    method,
    ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
  });
  const text = await response.text();
  const json = text === '' ? undefined : JSON.parse(text);
  if (!response.ok) throw new Error(json?.error ?? response.statusText);
  return json;
}

export const service = {
  people: () => ask('GET', 'people'),
  commands: () => ask('GET', 'commands'),
  messages: (as, channel) => ask('GET', `messages?${new URLSearchParams({ as, channel, limit: '200' })}`),
  run: (body) => ask('POST', 'run', body),
  complete: (body) => ask('POST', 'complete', body),
  press: (body) => ask('POST', 'press', body),
  choose: (body) => ask('POST', 'choose', body),
  submit: (body) => ask('POST', 'submit', body),
  say: (body) => ask('POST', 'say', body),
};

/** Calls `act` after every change, several changes in quick succession counting as one. @param {() => void} act */
export function onChange(act) {
  let timer;
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(act, 30);
  };
  const events = new EventSource('/local/events');
  events.addEventListener('changed', soon);
  events.addEventListener('open', soon);
  events.addEventListener('error', soon);
}

/** A file as the control interface takes it. @param {File} file */
export async function packFile(file) {
  const url = await new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result)));
    reader.addEventListener('error', () => reject(reader.error));
    reader.readAsDataURL(file);
  });
  return {
    filename: file.name,
    contentType: file.type || 'application/octet-stream',
    base64: url.slice(url.indexOf(',') + 1),
  };
}
