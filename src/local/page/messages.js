import { showComponents } from './components.js';
import { make } from './dom.js';
import { showMarkdown } from './markdown.js';
import { showFile, showPicture } from './media.js';

const COMPONENTS_V2 = 32768;
const CLOCK_TIME = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' };

/**
 * One message as a slip of paper.
 * @param {any} message
 * @param {{ names: import('./markdown.js').Names, me: string, press: Function, choose: Function }} view
 */
export function showMessage(message, view) {
  const { local } = message;
  const pings = message.mentions.some((user) => user.username === view.me);
  const isPerson = message.author.bot !== true;
  // In the newer form, files show only where a component refers to them.
  const isV2 = (message.flags & COMPONENTS_V2) !== 0;
  const classes = ['slip', local.isEphemeral && 'private', pings && 'pings', isPerson && 'person'].filter(Boolean);
  return make(
    'li',
    { class: classes.join(' '), 'data-id': message.id },
    meta(message, pings, view.me),
    local.isLoading ? make('p', { class: 'quiet' }, 'Working on it…') : null,
    message.content === '' ? null : part(showMarkdown(message.content, view.names)),
    ...message.embeds.map((embed) => showEmbed(embed, view.names)),
    ...(isV2 ? [] : message.attachments.map(showAttachment)),
    ...showComponents(message, view),
  );
}

function meta(message, pings, me) {
  const { local } = message;
  const at = new Date(message.timestamp);
  const isToday = at.toDateString() === new Date().toDateString();
  const time = isToday
    ? at.toLocaleTimeString([], CLOCK_TIME)
    : at.toLocaleString([], { day: 'numeric', month: 'short', ...CLOCK_TIME });
  const asker = local.askedBy === me ? 'you' : local.askedBy;
  const asked = asker && (local.askedFor ? `${asker} asked /${local.askedFor}` : `for ${asker}`);
  const author = message.author.bot !== true && local.authorName === me ? `${me} (you)` : local.authorName;
  return make(
    'p',
    { class: 'meta' },
    make('b', {}, author),
    make('time', { dateTime: message.timestamp }, time),
    asked ? make('span', {}, asked) : null,
    message.edited_timestamp ? make('span', {}, 'changed since') : null,
    message.pinned ? make('span', {}, 'pinned') : null,
    pings ? make('b', {}, 'for you') : null,
    local.isEphemeral ? make('b', {}, 'only you see this') : null,
  );
}

function part(child) {
  return make('div', { class: 'part' }, child);
}

function showEmbed(embed, names) {
  return make(
    'div',
    { class: 'part embed' },
    embed.author ? make('p', { class: 'quiet' }, embed.author.name) : null,
    embed.title
      ? make('h3', {}, embed.url ? make('a', { href: embed.url, rel: 'noreferrer' }, embed.title) : embed.title)
      : null,
    embed.description ? showMarkdown(embed.description, names) : null,
    embed.fields?.length
      ? make('dl', { class: 'fields' }, ...embed.fields.map((field) => showField(field, names)))
      : null,
    embed.image ? showPicture(embed.image, embed.title ?? 'Picture') : null,
    embed.footer ? make('p', { class: 'quiet' }, embed.footer.text) : null,
  );
}

function showField(field, names) {
  return make(
    'div',
    { class: field.inline ? '' : 'wide' },
    make('dt', {}, field.name),
    make('dd', {}, showMarkdown(field.value, names)),
  );
}

function showAttachment(attachment) {
  if (/^image\//.test(attachment.content_type ?? ''))
    return part(showPicture(attachment, attachment.description ?? attachment.filename));
  return part(showFile(attachment.url, attachment.filename, attachment.size));
}
