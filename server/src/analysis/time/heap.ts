/** Numbers that wait in the order of their keys, the least first; of equal keys in no particular order. */
export interface Heap {
  size: number;
  keys: Float64Array;
  values: Int32Array;
}

export function emptyHeap(room = 16): Heap {
  return { size: 0, keys: new Float64Array(room), values: new Int32Array(room) };
}

export function push(heap: Heap, key: number, value: number): void {
  if (heap.size === heap.keys.length) grow(heap);
  const { keys, values } = heap;
  let place = heap.size++;
  while (place > 0) {
    const above = (place - 1) >> 1;
    const aboveKey = keys[above] as number;
    if (aboveKey <= key) break;
    keys[place] = aboveKey;
    values[place] = values[above] as number;
    place = above;
  }
  keys[place] = key;
  values[place] = value;
}

/** The least key; undefined when nothing waits. */
export function leastKey(heap: Heap): number | undefined {
  return heap.size === 0 ? undefined : heap.keys[0];
}

/** Takes out the value of the least key; undefined when nothing waits. */
export function pop(heap: Heap): number | undefined {
  if (heap.size === 0) return undefined;
  const { keys, values } = heap;
  const taken = values[0];
  const size = --heap.size;
  const key = keys[size] as number;
  let place = 0;
  for (;;) {
    let below = 2 * place + 1;
    if (below >= size) break;
    if (below + 1 < size && (keys[below + 1] as number) < (keys[below] as number)) below++;
    if ((keys[below] as number) >= key) break;
    keys[place] = keys[below] as number;
    values[place] = values[below] as number;
    place = below;
  }
  keys[place] = key;
  values[place] = values[size] as number;
  return taken;
}

function grow(heap: Heap): void {
  const keys = new Float64Array(2 * heap.keys.length);
  keys.set(heap.keys);
  const values = new Int32Array(2 * heap.values.length);
  values.set(heap.values);
  heap.keys = keys;
  heap.values = values;
}
