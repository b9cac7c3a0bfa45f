import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { slip } from './document.ts';
import { connect } from './editor.ts';
import { calibrate, figure, median, quantile, table, times } from './figures.ts';
import type { Peers } from './peers.ts';
import { others, ours, type Server } from './servers.ts';

/** What one start of one server took; ms, and MiB. */
interface Measured {
  /** from spawn to the first diagnostics that show the document's lasting error */
  readonly first: number;
  readonly edits: readonly number[];
  /** edits whose diagnostics never came */
  readonly missed: number;
  readonly completion: readonly number[];
  readonly completionTyping: readonly number[];
  /** items of the longest completion, 0 when every answer was empty */
  readonly items: number;
  readonly hover: readonly number[];
  readonly hovers: number;
  readonly memory: number;
}

/**
 * Edit → diagnostics, first diagnostics, requests and memory of ours and of the peers. Size by size, the servers one
 * after another, all of it `runs` times, so that a slow spell of the machine falls on everybody.
 */
export async function latencies({
  quick,
  sizes,
  peers,
}: {
  readonly quick: boolean;
  readonly sizes: readonly number[];
  readonly peers: Peers | undefined;
}): Promise<string> {
  const cache = mkdtempSync(join(tmpdir(), 'curette-bench-cache-'));
  const own = ours('Curette', cache);
  const servers = [own, ours('Curette, first start', undefined), ...(peers ? others(peers) : [])];
  const runs = quick ? 1 : 3;
  await untilKept(own, cache);
  const measured = new Map<string, Measured[]>();
  const failures: string[] = [];
  for (let run = 0; run < runs; run++)
    for (const lines of sizes)
      for (const server of servers) {
        calibrate();
        const key = `${server.name}\t${lines}`;
        try {
          measured.set(key, [...(measured.get(key) ?? []), await measure(server, peers, lines, quick ? 20 : 60)]);
        } catch (error) {
          failures.push(`${server.name} at ${lines} lines: ${error instanceof Error ? error.message : error}`);
        }
      }
  rmSync(cache, { recursive: true, force: true });
  const rows = sizes.flatMap((lines) => {
    const first = summary(measured.get(`${own.name}\t${lines}`));
    return servers.flatMap((server) => {
      const all = measured.get(`${server.name}\t${lines}`);
      return all ? [row(server, lines, summary(all), first)] : [];
    });
  });
  return [table(HEAD, rows), ...failures.map((failure) => `Not measured: ${failure}`)].join('\n\n');
}

const HEAD = [
  'server',
  'lines',
  'first ms',
  'is',
  'edit p50 ms',
  'is',
  'p95',
  'missed',
  'waits ms',
  'completion p95 ms: at rest',
  'typing',
  'items',
  'hover p95 ms',
  'MiB',
  'is',
] as const;

type Summary = Readonly<
  Record<'first' | 'edit' | 'edit95' | 'missed' | 'rest' | 'typing' | 'items' | 'hover' | 'hovers' | 'memory', number>
>;

function summary(all: readonly Measured[] | undefined): Summary {
  const of = (value: (one: Measured) => number): number => median((all ?? []).map(value));
  return {
    first: of((one) => one.first),
    edit: of((one) => quantile(one.edits, 0.5)),
    edit95: of((one) => quantile(one.edits, 0.95)),
    missed: (all ?? []).reduce((sum, one) => sum + one.missed, 0),
    rest: of((one) => quantile(one.completion, 0.95)),
    typing: of((one) => quantile(one.completionTyping, 0.95)),
    items: Math.max(...(all ?? []).map((one) => one.items)),
    hover: of((one) => quantile(one.hover, 0.95)),
    hovers: Math.max(...(all ?? []).map((one) => one.hovers)),
    memory: of((one) => one.memory),
  };
}

function row(server: Server, lines: number, one: Summary, own: Summary): string[] {
  return [
    server.name,
    String(lines),
    figure(one.first),
    times(one.first, own.first),
    figure(one.edit),
    times(one.edit, own.edit),
    figure(one.edit95),
    String(one.missed),
    String(server.waits.reduce((sum, wait) => sum + wait, 0)),
    figure(one.rest),
    figure(one.typing),
    String(one.items),
    one.hovers === 0 ? 'empty' : figure(one.hover),
    figure(one.memory),
    times(one.memory, own.memory),
  ];
}

async function measure(server: Server, peers: Peers | undefined, count: number, edits: number): Promise<Measured> {
  const folder = mkdtempSync(join(tmpdir(), 'curette-bench-'));
  const document = server.document(count);
  const { after, insert } = server.edit;
  // A lasting error on the last line that may be edited: first diagnostics that show it are complete.
  const sites = document.sites.slice(0, -1);
  const lasting = document.sites.at(-1) ?? 0;
  const lines = document.lines.map((line, at) =>
    at === lasting ? line.slice(0, behind(line, after)) + insert + line.slice(behind(line, after)) : line,
  );
  for (const [name, content] of Object.entries(server.files ?? {}))
    writeFileSync(join(folder, name), JSON.stringify(content));
  const text = `${lines.join('\n')}\n`;
  const file = join(folder, `main${server.ending}`);
  writeFileSync(file, text);
  const site = (at: number): number => sites[Math.min(sites.length - 1, Math.floor(at * sites.length))] ?? 0;

  const editor = connect(server, folder, file, text, peers);
  try {
    const { first, errors } = await editor.open();
    await pause(1000);
    const spent: number[] = [];
    let missed = 0;
    for (let edit = 0; edit < edits; edit++) {
      const faulty = edit % 2 === 0;
      const line = site(((edit >> 1) + 0.5) / (edits / 2));
      const character = behind(lines[line] ?? '', after);
      const began = performance.now();
      const came = await editor.seen(
        (now) => (faulty ? now > errors : now === errors),
        () => editor.change(line, character, faulty ? 0 : insert.length, faulty ? insert : ''),
      );
      if (came === undefined) missed++;
      else spent.push(performance.now() - began);
      await pause(20);
    }
    const memory = memoryOf(editor.pid);

    const middle = site(0.5);
    const typed = site(0.6);
    const ask = async (method: string, where: string, times: number, typing: boolean) => {
      const spent: number[] = [];
      let most = 0;
      for (let turn = 0; turn < times; turn++) {
        const faulty = turn % 2 === 0;
        const character = behind(lines[typed] ?? '', after);
        if (typing) editor.change(typed, character, faulty ? 0 : insert.length, faulty ? insert : '');
        const began = performance.now();
        const answer = await editor.ask(method, middle, behind(lines[middle] ?? '', where));
        spent.push(performance.now() - began);
        most = Math.max(most, sizeOf(answer));
        await pause(10);
      }
      return { spent, most };
    };
    const completion = await ask('textDocument/completion', server.completeAfter, 30, false);
    const completionTyping = await ask('textDocument/completion', server.completeAfter, 20, true);
    const hover = await ask('textDocument/hover', server.hoverAfter, 30, false);
    return {
      first,
      edits: spent,
      missed,
      completion: completion.spent,
      completionTyping: completionTyping.spent,
      items: completion.most,
      hover: hover.spent,
      hovers: hover.most,
      memory,
    };
  } finally {
    editor.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function behind(line: string, part: string): number {
  const at = line.indexOf(part);
  if (at < 0) throw new Error(`"${part}" is not in: ${line}`);
  return at + part.length;
}

function sizeOf(answer: unknown): number {
  if (answer === null || answer === undefined) return 0;
  if (Array.isArray(answer)) return answer.length;
  if (typeof answer !== 'object') return 1;
  return 'items' in answer && Array.isArray(answer.items) ? answer.items.length : 1;
}

/** Resident memory of a process and of all it started, in MiB; NaN where the system does not tell. */
function memoryOf(pid: number): number {
  try {
    const own = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    const children = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').split(' ').filter(Boolean);
    return Number(own) / 1024 + children.reduce((sum, child) => sum + (memoryOf(Number(child)) || 0), 0);
  } catch {
    return Number.NaN;
  }
}

/** Starts ours once, until what was compiled is kept. */
async function untilKept(server: Server, cache: string): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'curette-bench-'));
  const { lines, sites } = server.document(100);
  const faulty = lines.map((line, at) => (at === sites[0] ? line.replace(server.edit.after, `$&${slip}`) : line));
  const editor = connect(server, folder, join(folder, 'main.curette'), `${faulty.join('\n')}\n`, undefined);
  await editor.open();
  for (let turn = 0; turn < 200 && readdirSync(cache).every((name) => !name.endsWith('.cache')); turn++)
    await pause(50);
  editor.close();
  rmSync(folder, { recursive: true, force: true });
}

const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
