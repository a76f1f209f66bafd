import { createInterface, type Interface } from 'node:readline';

/**
 * Asks a person or a pipe, line by line. Nothing is read from the input before the first question.
 * An answer is null at the end of the input, and when the person breaks off with Ctrl-C or Ctrl-D.
 */
export function questioner(input: NodeJS.ReadStream, output: NodeJS.WriteStream) {
  let lines: Interface | null = null;
  const heard: string[] = [];
  let ended = false;
  let waiting: ((line: string | null) => void) | null = null;

  const listen = (): Interface => {
    const reader = createInterface({ input, output, terminal: input.isTTY && output.isTTY });
    // A pipe may bring many lines at once; they wait for their questions.
    reader.on('line', (line) => {
      if (waiting) waiting(line);
      else heard.push(line);
    });
    reader.on('close', () => {
      ended = true;
      waiting?.(null);
    });
    return reader;
  };

  return {
    ask: (question: string): Promise<string | null> => {
      lines ??= listen();
      const line = heard.shift();
      const last = question.lastIndexOf('\n') + 1;
      if (line !== undefined || ended) {
        output.write(`${question}\n`);
        return Promise.resolve(line ?? null);
      }
      // What stands above the line to type on is no part of it, or editing the line would draw it again.
      output.write(question.slice(0, last));
      lines.setPrompt(question.slice(last));
      lines.prompt();
      return new Promise((resolve) => {
        waiting = (answer) => {
          waiting = null;
          resolve(answer);
        };
      });
    },
    close: (): void => lines?.close(),
  };
}
