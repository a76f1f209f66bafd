import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TestClinic } from '../publish/clinic.js';
import { hasProgram } from '../publish/programs.js';
import { program, root, spawned, thrice } from './thrice.js';

const COMMANDS = ['build', 'check', 'strip', 'facts', 'approve', 'key', 'table', 'new'];
const { version } = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as { version: string };

describe.each(COMMANDS)('thrice %s', (command) => {
  it.each(['--help', '-h'])('shows how to use it with %s', async (option) => {
    const { code, out, err } = await thrice(command, option);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(new RegExp(`^thrice ${command} `));
  });

  it('shows the version with --version', async () => {
    expect(await thrice(command, '--version')).toEqual({
      code: 0,
      out: `thrice ${version}`,
      err: '',
    });
  });

  it('refuses an option that it does not know, in one sentence, and points at the help', async () => {
    const { code, out, err } = await thrice(command, '--colour', 'x');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.split('\n')).toEqual([
      `thrice ${command}: Unknown option '--colour'.`,
      `Run "thrice ${command} --help" for how to use it.`,
    ]);
  });

  it('refuses too many words and points at the help', async () => {
    const { code, out, err } = await thrice(command, 'one', 'two', 'three');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/3 found\.\nRun "thrice \w+ --help" for how to use it\.$/);
  });
});

describe('thrice', () => {
  it.each(['--help', '-h', 'help'])('lists every command with %s', async (word) => {
    const { code, out } = await thrice(word);
    expect(code).toBe(0);
    for (const command of COMMANDS) expect(out).toContain(`thrice ${command}`);
  });

  it('shows the list and exits with 2 without any word', async () => {
    expect(await thrice()).toMatchObject({ code: 2, out: (await thrice('--help')).out });
  });

  it.each(['constructor', '--colour', ''])('does not know the command "%s"', async (word) => {
    const { code, out, err } = await thrice(word);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toBe(`thrice: "${word}" is not a command. Run "thrice --help" for the list.`);
  });

  it('names the word that may have been meant', async () => {
    expect((await thrice('biuld')).err).toContain('Did you mean "build"? Run "thrice --help"');
    expect((await thrice('build', '--strct')).err).toContain("'--strct'. Did you mean --strict?\n");
    expect((await thrice('strip', 'x.edf', '--species', 'doog')).err).toContain(
      '--species "doog" is not known; did you mean "dog"?',
    );
  });

  it.each([['strip'], ['facts'], ['approve'], ['key'], ['new']])(
    '%s asks for the file that it needs',
    async (command) => {
      const { code, err } = await thrice(command);
      expect(code).toBe(2);
      expect(err).toContain('1 file or folder name expected, 0 found.');
    },
  );

  it('says how many names a command takes', async () => {
    expect((await thrice('merge', 'clinic')).err).toContain(
      'at least 2 file or folder names expected, 1 found.',
    );
    expect((await thrice('check', 'one', 'two')).err).toContain(
      'at most 1 file or folder name expected, 2 found.',
    );
  });

  it('takes no mistyped share for one that was lost', async () => {
    const { code, out, err } = await thrice('merge', 'clinic', 'nosuch', '--out', 'nowhere');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('thrice merge: no share in nosuch. Mend the name, or make one with');
    expect(existsSync('nowhere')).toBe(false);
  });

  it('says in one sentence what an option lacks', async () => {
    for (const words of [['--out'], ['--out', '--strict']]) {
      const { code, err } = await thrice('build', ...words);
      expect(code).toBe(2);
      expect(err).toMatch(/^thrice build: Option '--out[^\n]*[^.]\.\nRun "thrice build --help"/);
    }
  });
});

describe('the program', () => {
  let clinic: TestClinic;
  beforeAll(() => {
    clinic = new TestClinic('clover');
  });
  afterAll(() => clinic.remove());

  it('exits with the code of the command: 0 done, 1 a problem, 2 not understood', () => {
    expect(spawned(['check', clinic.folder]).code).toBe(0);
    expect(spawned(['check', clinic.path('nowhere')]).code).toBe(1);
    expect(spawned(['nonsense']).code).toBe(2);
  });

  it('exits with 3 and asks for a report where the fault is its own', () => {
    const broken =
      'data:text/javascript,globalThis.TextDecoder = class { constructor() { throw new Error("out of order") } }';
    const { code, out, err } = spawned(['check', clinic.folder], {
      env: { ...process.env, NODE_OPTIONS: `--import=${encodeURI(broken)}` },
    });
    expect({ code, out }).toEqual({ code: 3, out: '' });
    expect(err).toMatch(
      /\nthrice: a fault of the program, not of your files\. Please report it .*\nError: out of order\n {4}at /,
    );
  });

  it.skipIf(!existsSync('/dev/full'))('exits with 1 where its answer has no room', () => {
    const full = openSync('/dev/full', 'w');
    const { code, err } = spawned(['facts', clinic.folder], { stdio: ['ignore', full, 'pipe'] });
    closeSync(full);
    expect({ code, err }).toEqual({
      code: 1,
      err: 'thrice: the answer cannot be written (ENOSPC).\n',
    });
  });

  it('tells each of its exit codes in the help', async () => {
    const { out } = await thrice('--help');
    expect(out.match(/^ {2}\d(?= {2})/gm)).toEqual(['  0', '  1', '  2', '  3']);
  });

  it('is quiet in a pipe', () => {
    expect(spawned(['check', clinic.folder])).toEqual({
      code: 0,
      out: expect.stringMatching(
        /^No problem in clover\.\nclover, given .*\nclover, owner's sheet .*\n$/,
      ),
      err: '',
    });
  });

  it.skipIf(!hasProgram('script'))(
    'shows its progress where somebody watches, and wipes it',
    () => {
      const command = `'${process.execPath}' '${program}' check '${clinic.folder}'`;
      const { stdout } = spawnSync('script', ['-qec', command, '/dev/null'], { encoding: 'utf8' });
      expect(stdout).toContain('\r\u001b[KReading clover');
      expect(stdout.split('\r\u001b[K').at(-1)).toMatch(/^No problem in clover\.\r\n/);
    },
  );

  it('takes it calmly when its reader leaves early', () => {
    const { stdout, stderr } = spawnSync(
      'sh',
      ['-c', `'${process.execPath}' '${program}' facts '${root}demo-data' | head -n 1`],
      { encoding: 'utf8' },
    );
    expect(stdout).toMatch(/^Bramble, record 2026-0131, /);
    expect(stderr).toBe('');
  });
});
