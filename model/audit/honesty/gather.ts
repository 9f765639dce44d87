/** Puts an item into the list that stands under a key. */
export function gather<K, T>(lists: Map<K, T[]>, key: K, item: T): void {
  const known = lists.get(key)
  if (known === undefined) lists.set(key, [item])
  else known.push(item)
}
