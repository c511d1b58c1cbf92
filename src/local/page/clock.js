import { byId } from './dom.js';
import { service } from './service.js';

/**
 * The small clock at the top, there only while the bot has a command for moving its clock.
 * @param {{ who: () => {as: string, channel: string}, perform: (act: () => Promise<any>) => Promise<boolean> }} page
 * @returns {(commands: any[]) => boolean} shows or hides it, and says which
 */
export function startClock(page) {
  const form = byId('clock');
  const run = (options) =>
    page.perform(() => service.run({ ...page.who(), command: 'clock', options, settleMs: 300_000 }));
  for (const button of form.querySelectorAll('button[data-forward]'))
    button.addEventListener('click', () => {
      run({ forward: button.dataset.forward });
    });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const date = /** @type {HTMLInputElement} */ (byId('clockDate')).value;
    if (date !== '') run({ to: date });
  });
  return (commands) => {
    const clock = commands.find((command) => command.path === 'clock');
    const has = (name) => clock?.options.some((option) => option.name === name) ?? false;
    form.hidden = clock === undefined;
    byId('clockForward').hidden = !has('forward');
    byId('clockTo').hidden = !has('to');
    return clock !== undefined;
  };
}
