import type { QueuedEntry, QueueStore } from './queue'

const databaseName = 'bendwright-bench'
const storeName = 'entries'

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(databaseName, 1)
    request.onupgradeneeded = () => request.result.createObjectStore(storeName, { keyPath: 'key' })
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error ?? new Error('The device’s store does not open.'))
  })
}

/** Settles when the transaction has ended, not when the request was heard: only then is it on the disk. */
async function run<Value>(
  mode: IDBTransactionMode,
  ask: (store: IDBObjectStore) => IDBRequest<Value>,
): Promise<Value> {
  const database = await open()
  try {
    return await new Promise((resolve, reject) => {
      const transaction = database.transaction(storeName, mode)
      const request = ask(transaction.objectStore(storeName))
      transaction.oncomplete = () => resolve(request.result)
      transaction.onerror = () => reject(transaction.error ?? new Error('The device’s store kept nothing.'))
      transaction.onabort = () => reject(transaction.error ?? new Error('The device’s store kept nothing.'))
    })
  } finally {
    database.close()
  }
}

/** The queue on this device's disk: it outlives a reload, a closed browser and an empty battery. */
export const deviceStore: QueueStore = {
  all: () => run<QueuedEntry[]>('readonly', (store) => store.getAll() as IDBRequest<QueuedEntry[]>),
  put: async (item) => void (await run('readwrite', (store) => store.put(item))),
  remove: async (key) => void (await run('readwrite', (store) => store.delete(key))),
}
