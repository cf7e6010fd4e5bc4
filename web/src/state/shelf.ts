// A small shelf in the browser (IndexedDB) for what must not be lost while the server is away. Where IndexedDB is refused
// (a private window), it keeps in memory, and says so.

export interface Shelf<Item> {
  put(key: string, item: Item): Promise<void>;
  all(): Promise<{ key: string; item: Item }[]>;
  drop(key: string): Promise<void>;
  /** Whether what is put here is still there after the browser was closed. */
  readonly lasting: boolean;
}

const done = <T>(request: IDBRequest<T>) =>
  new Promise<T>((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("the browser's store refused"));
  });

function open(name: string): Promise<IDBDatabase> {
  const request = indexedDB.open(`barm.${name}`, 1);
  request.onupgradeneeded = () => request.result.createObjectStore("kept");
  return done(request);
}

export async function shelf<Item>(name: string): Promise<Shelf<Item>> {
  try {
    return in_database<Item>(await open(name));
  } catch {
    return in_memory<Item>();
  }
}

function in_database<Item>(database: IDBDatabase): Shelf<Item> {
  const store = (mode: IDBTransactionMode) => database.transaction("kept", mode).objectStore("kept");
  return {
    lasting: true,
    put: (key, item) =>
      new Promise((resolve, reject) => {
        const transaction = database.transaction("kept", "readwrite");
        transaction.objectStore("kept").put(item, key);
        transaction.oncomplete = () => resolve();
        transaction.onabort = transaction.onerror = () => reject(transaction.error ?? new Error("not kept"));
      }),
    all: async () => {
      const kept = store("readonly");
      const [keys, items] = await Promise.all([done(kept.getAllKeys()), done(kept.getAll() as IDBRequest<Item[]>)]);
      return keys.map((key, i) => ({ key: String(key), item: items[i] as Item }));
    },
    drop: async (key) => {
      await done(store("readwrite").delete(key));
    },
  };
}

export function in_memory<Item>(): Shelf<Item> {
  const kept = new Map<string, Item>();
  return {
    lasting: false,
    put: async (key, item) => void kept.set(key, item),
    all: async () => [...kept].map(([key, item]) => ({ key, item })),
    drop: async (key) => void kept.delete(key),
  };
}
