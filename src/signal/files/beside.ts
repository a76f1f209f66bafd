/** The path of a file in the same folder as another. */
export const beside = (path: string, name: string): string =>
  path.slice(0, Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1) + name;
