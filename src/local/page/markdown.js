import { make } from './dom.js';

/** @typedef {{ users: {id: string, name: string}[], channels: {id: string, name: string}[] }} Names */

const INLINE =
  /\\([\\*_~`>#\-[\]()|.])|`([^`]+)`|\*\*(.+?)\*\*|__(.+?)__|~~(.+?)~~|\*([^\s*](?:.*?[^\s*])?)\*|\b_([^_]+)_\b|\[([^\]]+)\]\((https?:[^)\s]+)\)|<@!?(\d+)>|<#(\d+)>|<t:(\d+)(?::[a-zA-Z])?>|(https?:\/\/[^\s<>)]+)/s;

/**
 * The part of Markdown that the service shows, as elements; the text itself never becomes markup.
 * @param {string} text
 * @param {Names} names
 * @returns {HTMLElement}
 */
export function showMarkdown(text, names) {
  const box = make('div', { class: 'text' });
  const pieces = text.split(/```(?:[a-z]+\n)?([\s\S]*?)```/);
  pieces.forEach((piece, index) => {
    if (index % 2 === 1) box.append(make('pre', {}, make('code', {}, piece.replace(/^\n|\n$/g, ''))));
    else box.append(...blocks(piece.split('\n'), names));
  });
  return box;
}

/** @param {string[]} lines @param {Names} names */
function blocks(lines, names) {
  const made = [];
  let paragraph = [];
  const flush = () => {
    const text = paragraph.join('\n').replace(/^\n+|\n+$/g, '');
    if (text !== '') made.push(make('p', {}, ...linesOf(inline(text, names))));
    paragraph = [];
  };
  for (let at = 0; at < lines.length; ) {
    const taken = block(lines, at, names);
    if (taken === undefined) {
      paragraph.push(lines[at]);
      at += 1;
    } else {
      flush();
      made.push(taken.element);
      at = taken.next;
    }
  }
  flush();
  return made;
}

/** The block that starts at a line, if one does, and where the text goes on. */
function block(lines, at, names) {
  const line = lines[at];
  const heading = /^(#{1,3}) (.+)$/.exec(line);
  if (heading)
    return { element: make(heading[1].length === 1 ? 'h3' : 'h4', {}, ...inline(heading[2], names)), next: at + 1 };
  const aside = /^-# (.+)$/.exec(line);
  if (aside) return { element: make('p', {}, make('small', {}, ...inline(aside[1], names))), next: at + 1 };
  if (/^> /.test(line)) {
    const quoted = run(lines, at, /^> ?(.*)$/);
    return { element: make('blockquote', {}, ...blocks(quoted, names)), next: at + quoted.length };
  }
  for (const [tag, form] of [
    ['ul', /^ ?[-*] (.*)$/],
    ['ol', /^ ?\d+\. (.*)$/],
  ]) {
    if (!form.test(line)) continue;
    const entries = run(lines, at, form);
    return {
      element: make(tag, {}, ...entries.map((entry) => make('li', {}, ...inline(entry, names)))),
      next: at + entries.length,
    };
  }
  return undefined;
}

function run(lines, at, form) {
  const taken = [];
  for (const line of lines.slice(at)) {
    const match = form.exec(line);
    if (match === null) break;
    taken.push(match[1]);
  }
  return taken;
}

/** Each line in a box of its own, so that a new line looks different from one that was wrapped. @param {(Node | string)[]} parts */
function linesOf(parts) {
  const lines = [[]];
  for (const part of parts) {
    const [first, ...others] = typeof part === 'string' ? part.split('\n') : [part];
    lines.at(-1).push(first);
    lines.push(...others.map((other) => [other]));
  }
  return lines.map((line) => make('span', { class: 'textLine' }, ...line));
}

/** @param {string} text @param {Names} names @returns {(Node | string)[]} */
function inline(text, names) {
  const made = [];
  let rest = text;
  for (let match = INLINE.exec(rest); match !== null; match = INLINE.exec(rest)) {
    made.push(rest.slice(0, match.index), span(match, names));
    rest = rest.slice(match.index + match[0].length);
  }
  return [...made, rest];
}

function span(match, names) {
  const [, plain, code, bold, under, struck, slanted, leaning, label, target, user, channel, instant, bare] = match;
  if (plain !== undefined) return plain;
  if (code !== undefined) return make('code', {}, code);
  if (bold !== undefined) return make('b', {}, ...inline(bold, names));
  if (under !== undefined) return make('u', {}, ...inline(under, names));
  if (struck !== undefined) return make('s', {}, ...inline(struck, names));
  if (slanted !== undefined || leaning !== undefined) return make('i', {}, ...inline(slanted ?? leaning, names));
  if (user !== undefined) return mention('@', names.users, user);
  if (channel !== undefined) return mention('#', names.channels, channel);
  if (instant !== undefined) return make('time', {}, new Date(Number(instant) * 1000).toLocaleString());
  return make('a', { href: target ?? bare, rel: 'noreferrer', target: '_blank' }, label ?? bare);
}

function mention(sign, known, id) {
  return make('span', { class: 'mention' }, sign + (known.find((entry) => entry.id === id)?.name ?? 'unknown'));
}
