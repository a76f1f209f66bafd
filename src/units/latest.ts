/** Keeps what was made for the last few keys. */
export function latest<T>(most: number): (key: string, make: () => T) => T {
  const kept = new Map<string, T>();
  return (key, make) => {
    const value = kept.has(key) ? (kept.get(key) as T) : make();
    kept.delete(key);
    kept.set(key, value);
    for (const old of kept.keys()) {
      if (kept.size <= most) break;
      kept.delete(old);
    }
    return value;
  };
}
