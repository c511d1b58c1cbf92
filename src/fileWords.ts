import { fail, minuteMs, type Result } from './domain/index.ts';
import type { FileFacts } from './store/copies.ts';

/** "1.2 MB, 3214 facts, the newest from 2027-04-13 18:22 UTC (8 min ago)". */
export function fileWords({ bytes, facts, newestAt }: FileFacts, now: Date): string {
  const size = bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
  const newest =
    newestAt === null
      ? 'none logged yet'
      : `the newest from ${newestAt.slice(0, 16).replace('T', ' ')} UTC (${ageWords(newestAt, now)})`;
  return `${size}, ${facts} facts, ${newest}`;
}

function ageWords(at: string, now: Date): string {
  const minutes = Math.floor((now.getTime() - Date.parse(at)) / minuteMs);
  if (minutes < 0) return "ahead of this machine's clock";
  if (minutes < 120) return `${minutes} min ago`;
  return minutes < 48 * 60 ? `${Math.floor(minutes / 60)} h ago` : `${Math.floor(minutes / (24 * 60))} days ago`;
}

/** "2027-04-13-182205", by the machine's time zone: what people look for in a list of files. */
export function stampOf(now: Date): string {
  const two = (number: number): string => String(number).padStart(2, '0');
  const date = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  return `${date}-${two(now.getHours())}${two(now.getMinutes())}${two(now.getSeconds())}`;
}

/** Says what a script did on standard output, or why it did not on standard error, and sets the exit code: 0 done, 1 not done. */
export async function tell(failed: string, work: () => Promise<Result<string, string>>): Promise<void> {
  const done = await work().catch((error: unknown) => {
    // The disk or its rights: the person at the keyboard can mend that. The rest is a bug and ends with its stack.
    if (!(error instanceof Error && 'syscall' in error)) throw error;
    return fail(`${failed}: ${error.message}`);
  });
  if (done.ok) process.stdout.write(`${done.value}\n`);
  else process.stderr.write(`${done.fault}\n`);
  process.exitCode = done.ok ? 0 : 1;
}
