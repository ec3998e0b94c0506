// The program under test: the screens on a folder of their own, with a clock that moves when told.
// See tests/screens-for-tests for what it understands.

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

import { atEnd } from './end.js';
import { target } from './folders.js';

const program = process.env.SCREENS_FOR_TESTS ?? join(target, 'debug', 'examples', 'screens-for-tests');

class Server {
  constructor(folder) {
    this.folder = folder;
  }

  // Starts the program on the folder; also again after `kill` or `quit`, on the same port.
  async start() {
    const args = ['--data', this.folder, '--port', String(this.port ?? 0)];
    this.process = spawn(program, args, { stdio: ['pipe', 'pipe', 'inherit'] });
    this.ended = once(this.process, 'exit');
    this.lines = createInterface({ input: this.process.stdout })[Symbol.asyncIterator]();
    const told = await this.answer();
    this.entrance = told.entrance;
    this.entranceOnce = told.entrance_once;
    this.port = Number(told.address.split(':')[1]);
    this.origin = `http://${told.address}`;
    return this;
  }

  async answer() {
    const { value, done } = await this.lines.next();
    if (done) throw new Error('the program ended without an answer');
    const told = JSON.parse(value);
    if (told.failed) throw new Error(told.failed);
    return told;
  }

  async tell(command) {
    this.process.stdin.write(`${JSON.stringify(command)}\n`);
    return (await this.answer()).utc_ms;
  }

  // Each gives the wall clock after it, in ms since 1970.
  now() { return this.tell({ do: 'clock' }); }
  advance(ms) { return this.tell({ do: 'advance', ms }); }
  jump(ms) { return this.tell({ do: 'jump', ms }); }
  reboot() { return this.tell({ do: 'reboot' }); }
  vouch(by) { return this.tell({ do: 'vouch', by }); }

  // As when the battery falls out.
  async kill() {
    this.process.kill('SIGKILL');
    await this.ended;
  }

  async quit() {
    if (this.process.exitCode !== null || this.process.signalCode !== null) return;
    this.process.stdin.end();
    await this.ended;
  }
}

// A running program on an empty folder, gone with the test (or suite) `t`.
export async function startServer(t) {
  const folder = await mkdtemp(join(tmpdir(), 'screens-'));
  const server = new Server(folder);
  const clean = async () => {
    await server.quit();
    await rm(folder, { recursive: true, force: true });
  };
  atEnd(t, clean);
  return server.start();
}
