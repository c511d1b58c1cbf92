import { freshId, make } from './dom.js';

/**
 * Gives a text input a list of suggestions: arrows move, Enter or a tap takes, Escape closes.
 * @template T
 * @param {HTMLInputElement} input
 * @param {HTMLElement} list an element with the role listbox
 * @param {{ offer: (text: string) => Promise<T[]> | T[], show: (entry: T) => (Node | string)[], take: (entry: T) => void }} how
 */
export function addListbox(input, list, how) {
  let entries = [];
  let at = -1;
  let asked = 0;

  const close = () => {
    asked += 1;
    entries = [];
    draw();
  };
  const take = (entry) => {
    close();
    how.take(entry);
  };
  const draw = () => {
    const rows = entries.map((entry, index) =>
      make(
        'div',
        {
          role: 'option',
          id: freshId('option'),
          'aria-selected': String(index === at),
          onpointerdown: (event) => event.preventDefault(),
          onclick: () => take(entry),
        },
        ...how.show(entry),
      ),
    );
    list.replaceChildren(...rows);
    list.hidden = rows.length === 0;
    input.setAttribute('aria-expanded', String(rows.length > 0));
    const current = rows[at];
    if (current === undefined) input.removeAttribute('aria-activedescendant');
    else {
      input.setAttribute('aria-activedescendant', current.id);
      current.scrollIntoView({ block: 'nearest' });
    }
  };
  const open = async () => {
    asked += 1;
    const mine = asked;
    const offered = await how.offer(input.value);
    if (mine !== asked || document.activeElement !== input) return;
    entries = offered;
    at = offered.length > 0 && input.value !== '' ? 0 : -1;
    draw();
  };

  const reopen = () => {
    open().catch(close);
  };
  input.addEventListener('input', reopen);
  input.addEventListener('focus', reopen);
  input.addEventListener('blur', close);
  input.addEventListener('keydown', (event) => {
    if (entries.length === 0) return;
    if (event.key === 'ArrowDown') at = (at + 1) % entries.length;
    else if (event.key === 'ArrowUp') at = (at + entries.length - 1) % entries.length;
    else if (event.key === 'Escape') {
      event.preventDefault();
      close();
      return;
    } else if ((event.key === 'Enter' || event.key === 'Tab') && at >= 0) {
      if (event.key === 'Enter') event.preventDefault();
      take(entries[at]);
      return;
    } else return;
    event.preventDefault();
    draw();
  });
  return { close };
}
