/** Rounds of a task: at least three, more while they take little time. */
const rounds = { least: 3, most: 15, withinMs: 1500 };

/** Milliseconds of processor time of a task, the median of several rounds; other programs on the machine count little in it. */
export async function cpuMs(task: () => Promise<void> | void): Promise<number> {
  const times: number[] = [];
  const spent = (): number => times.reduce((sum, ms) => sum + ms, 0);
  while (times.length < rounds.least || (times.length < rounds.most && spent() < rounds.withinMs)) {
    const before = process.cpuUsage();
    await task();
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
