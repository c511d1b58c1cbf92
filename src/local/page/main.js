import { startClock } from './clock.js';
import { commandLines, startComposer } from './composer.js';
import { byId, make } from './dom.js';
import { showForm } from './formDialog.js';
import { showMessage } from './messages.js';
import { onChange, service } from './service.js';

/** What the page shows; who acts, and where, also stands in the address, so that it can be kept as a bookmark. */
const state = { people: undefined, commands: [], as: '', channel: '', isActing: false };
/** An answer that comes sooner needs no word about waiting; the line would only make the page jump. */
const PATIENCE_MS = 400;
/** Messages on the page by id, each with what it was drawn from. */
const drawn = new Map();

const names = () => ({
  users: [...state.people.users, { id: state.people.applicationId, name: state.people.botName }],
  channels: state.people.channels.filter((channel) => channel.withUserId === undefined),
});
const who = () => ({ as: state.as, channel: state.channel });

function say(text, isBad = false) {
  const status = byId('status');
  const wasAtEnd = isAtEnd();
  status.textContent = text;
  status.classList.toggle('bad', isBad);
  if (wasAtEnd) toEnd();
}

const isAtEnd = () => window.innerHeight + window.scrollY >= document.body.scrollHeight - 80;
const toEnd = () => window.scrollTo(0, document.body.scrollHeight);

/** Does something as the chosen person and shows what came of it. @returns {Promise<boolean>} whether the bot answered */
async function perform(act) {
  const waiting = setTimeout(() => say('Waiting for the bot…'), PATIENCE_MS);
  state.isActing = true;
  try {
    const outcome = await act().finally(() => clearTimeout(waiting));
    if (outcome?.kind === 'none') {
      say(`No answer: ${outcome.failure}.`, true);
      return false;
    }
    say('');
    if (outcome?.modal) openForm(outcome);
    await refresh();
    return true;
  } catch (problem) {
    say(problem.message, true);
    return false;
  } finally {
    state.isActing = false;
  }
}

function openForm(outcome) {
  showForm(outcome.modal, names(), (fields) =>
    perform(() => service.submit({ ...who(), form: outcome.interactionId, fields })),
  );
}

async function busy(element, act) {
  element.setAttribute('aria-busy', 'true');
  await perform(act);
  element.removeAttribute('aria-busy');
}

const view = {
  get names() {
    return names();
  },
  get me() {
    return state.as;
  },
  press: (message, control, element) =>
    busy(element, () => service.press({ ...who(), message: message.id, control: control.custom_id })),
  choose: (message, control, values, element) =>
    busy(element, () => service.choose({ ...who(), message: message.id, control: control.custom_id, values })),
};

let running = Promise.resolve();
let queued;

/** Draws what is there now, one drawing at a time. */
function refresh() {
  queued ??= running
    .catch(() => {})
    .then(() => {
      queued = undefined;
      return draw();
    });
  running = queued;
  return queued;
}

async function draw() {
  const [people, commands] = await Promise.all([service.people(), service.commands()]);
  state.people = people;
  state.commands = commandLines(commands);
  if (!people.users.some((user) => user.name === state.as)) state.as = people.users[0].name;
  if (!people.channels.some((channel) => channel.id === state.channel)) state.channel = people.channelId;
  drawTop();
  const { as, channel } = state;
  const messages = await service.messages(as, channel);
  // Whoever took over meanwhile must not see what was only for the other; their own drawing is on its way.
  if (as === state.as && channel === state.channel) drawMessages(messages);
}

function drawTop() {
  const { users, channels, isBotConnected, botName } = state.people;
  byId('presence').textContent = isBotConnected ? `${botName} is connected` : `${botName} is not connected`;
  const name = channels.find((channel) => channel.id === state.channel)?.name ?? '';
  byId('channelName').textContent = `Channel ${name}`;
  document.title = `${name} · ${state.as}`;
  const hasClock = showClock(state.commands);
  // With a clock of the bot's own, the machine's time beside an answer would contradict the time in it.
  document.body.classList.toggle('ownClock', hasClock);
  redraw(byId('people'), JSON.stringify(users), () =>
    users.map((user) => {
      const input = make('input', {
        type: 'radio',
        name: 'as',
        value: user.name,
        onchange: () => move({ as: user.name }),
      });
      return make('label', {}, input, user.name);
    }),
  );
  for (const input of byId('people').querySelectorAll('input')) input.checked = input.value === state.as;
  const seen = channels.filter(
    (channel) =>
      channel.withUserId === undefined ||
      users.some((user) => user.id === channel.withUserId && user.name === state.as),
  );
  redraw(byId('channels'), JSON.stringify([seen, state.channel]), () =>
    seen.map((channel) => make('option', { value: channel.id, selected: channel.id === state.channel }, channel.name)),
  );
}

/** Replaces the children only when what they show has changed, so that the focus stays where it is. */
function redraw(element, key, children) {
  if (element.dataset.shown === key) return;
  element.dataset.shown = key;
  element.replaceChildren(...children());
}

function drawMessages(messages) {
  const list = byId('messages');
  const wasAtEnd = isAtEnd();
  byId('empty').hidden = messages.length > 0;
  byId('firstSteps').hidden = !state.commands.some((command) => command.path === 'help');
  const before = drawn.size;
  const lastBefore = list.lastElementChild?.dataset.id;
  for (const [id, entry] of drawn) {
    if (messages.some((message) => message.id === id)) continue;
    entry.element.remove();
    drawn.delete(id);
  }
  messages.forEach((message, index) => {
    const key = JSON.stringify([message, state.as, state.people.users.length]);
    const old = drawn.get(message.id);
    if (old?.key === key) return;
    const element = showMessage(message, view);
    if (old === undefined) list.insertBefore(element, list.children[index] ?? null);
    else replaceKeepingFocus(old.element, element);
    drawn.set(message.id, { key, element });
  });
  const last = list.lastElementChild;
  const hasNew = last !== null && last.dataset.id !== lastBefore;
  if (hasNew && (wasAtEnd || state.isActing || before === 0)) {
    const isTall = last.offsetHeight > window.innerHeight * 0.7;
    last.scrollIntoView({ block: isTall ? 'start' : 'end' });
  }
}

/** A message that changes under the keyboard's hand keeps the focus, on the message as a whole. */
function replaceKeepingFocus(old, element) {
  const hadFocus = old.contains(document.activeElement);
  old.replaceWith(element);
  if (!hadFocus) return;
  element.tabIndex = -1;
  element.focus({ preventScroll: true });
}

/** Goes on as another person, or in another channel. */
function move(change) {
  Object.assign(state, change);
  window.location.replace(`#${new URLSearchParams(who())}`);
  say('');
  refresh()
    .then(toEnd)
    .catch((problem) => say(problem.message, true));
}

function readAddress() {
  const address = new URLSearchParams(window.location.hash.slice(1));
  state.as = address.get('as') ?? state.as;
  state.channel = address.get('channel') ?? state.channel;
}

const showClock = startClock({ who, perform });
startComposer({ names, who, commands: () => state.commands, perform });
byId('channels').addEventListener('change', (event) => move({ channel: event.target.value }));
byId('skip').addEventListener('click', (event) => {
  // The address's own part keeps who acts and where.
  event.preventDefault();
  byId('command').focus();
});
byId('firstHelp').addEventListener('click', () => {
  void perform(() => service.run({ ...who(), command: 'help' }));
});
readAddress();
onChange(() => {
  refresh().catch(() => say('The stand-in does not answer. Is it still running?', true));
});
