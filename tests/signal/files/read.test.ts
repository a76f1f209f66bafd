import { describe, expect, it } from 'vitest';
import type { Outcome } from '../../../src/record/problem.js';
import { bad, good } from '../../../src/record/problem.js';
import { readWaveform } from '../../../src/signal/files/read.js';
import { buildEdf } from '../../tools/build-edf.js';

/** A folder in memory that remembers which paths were asked for. */
function folder(files: Record<string, Uint8Array | string>) {
  const asked: string[] = [];
  const readBytes = (path: string): Outcome<Uint8Array> => {
    asked.push(path);
    const content = files[path];
    if (content === undefined) {
      return bad({
        kind: 'no such file',
        file: path,
        found: 'no file',
        expected: 'a file',
        mend: 'Put it there.',
      });
    }
    return good(typeof content === 'string' ? new TextEncoder().encode(content) : content);
  };
  return { asked, readBytes };
}

describe('a waveform file', () => {
  it('is read by its ending, in capitals too', () => {
    const { readBytes } = folder({
      'case/a.EDF': buildEdf({ signals: [{ label: 'II', data: [[1, 2]] }] }),
      'case/a.csv': 'II [mV]\n1\n2\n',
    });
    const formatOf = (path: string) => {
      const outcome = readWaveform(path, readBytes, { samplingRate: 250 });
      return outcome.ok ? outcome.value.format : outcome.problems;
    };
    expect(formatOf('case/a.EDF')).toBe('EDF');
    expect(formatOf('case/a.csv')).toBe('CSV');
  });

  it('of a WFDB record takes the signal files from beside the header, each once', () => {
    const { asked, readBytes } = folder({
      'case/r.hea': 'r 2 100 1\nr.dat 16 1\nr.dat 16 1\n',
      'case/r.dat': Uint8Array.of(1, 0, 2, 0),
    });
    const outcome = readWaveform('case/r.hea', readBytes);
    expect(outcome.ok && outcome.value.channels.map(({ samples }) => samples[0])).toEqual([1, 2]);
    expect(asked).toEqual(['case/r.hea', 'case/r.dat']);
  });

  it.each([
    '../secret.dat',
    '/etc/secret.dat',
    'sub/secret.dat',
    'sub\\secret.dat',
    '..',
    '-',
    '~',
  ])('never leads to %s outside its folder', (name) => {
    const { asked, readBytes } = folder({ 'case/r.hea': `r 1 100 1\n${name} 16 1\n` });
    expect(readWaveform('case/r.hea', readBytes).ok).toBe(false);
    expect(asked).toEqual(['case/r.hea']);
  });

  it('hands on the problem of a file that is not there', () => {
    const { readBytes } = folder({ 'case/r.hea': 'r 1 100 1\nr.dat 16 1\n' });
    expect(readWaveform('case/r.hea', readBytes)).toMatchObject({
      problems: [{ file: 'case/r.dat', found: 'no file' }],
    });
    expect(readWaveform('q.csv', readBytes)).toMatchObject({ problems: [{ file: 'q.csv' }] });
  });

  it('with another ending is refused unread, and a .dat points to its header', () => {
    const { asked, readBytes } = folder({});
    expect(readWaveform('case.d/waves', readBytes)).toMatchObject({
      problems: [{ found: 'a file name without an ending' }],
    });
    expect(readWaveform('r.dat', readBytes)).toMatchObject({
      problems: [{ mend: 'Name the .hea file that belongs to it.' }],
    });
    expect(asked).toEqual([]);
  });

  it('that is not UTF-8 is located by its line', () => {
    const { readBytes } = folder({ 'a.csv': Uint8Array.of(73, 73, 10, 49, 10, 0xe9, 10) });
    expect(readWaveform('a.csv', readBytes, { samplingRate: 1 })).toMatchObject({
      problems: [{ file: 'a.csv', line: 3 }],
    });
  });
});
