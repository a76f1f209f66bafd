/** A leaf or a node of a tree of plain values, with its path. */
export interface Visited {
  readonly path: string;
  readonly value: unknown;
}

/** Every node of a tree, each object before its parts; typed arrays count as leaves. */
export function* walk(value: unknown, path = ''): Generator<Visited> {
  yield { path, value };
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return;
  for (const [key, part] of Object.entries(value)) {
    yield* walk(part, path === '' ? key : `${path}.${key}`);
  }
}
