import { PrismaPg } from '@prisma/adapter-pg'

type Adapter = Awaited<ReturnType<PrismaPg['connect']>>
type Transaction = Awaited<ReturnType<Adapter['startTransaction']>>

/**
 * The adapter with each transaction's queries sent one after the other. Loading two relations of a row asks for both at
 * once, and within a transaction there is one connection: pg queues them today, warns, and will refuse them.
 */
export class OneAtATimePg extends PrismaPg {
  override async connect(): Promise<Adapter> {
    const adapter = await super.connect()
    const start = adapter.startTransaction.bind(adapter)
    adapter.startTransaction = async (isolationLevel) => queued(await start(isolationLevel))
    return adapter
  }
}

function queued(transaction: Transaction): Transaction {
  let last: Promise<unknown> = Promise.resolve()
  const inTurn =
    <Query, Result>(send: (query: Query) => Promise<Result>) =>
    (query: Query): Promise<Result> => {
      const sent = last.then(() => send(query))
      // One that fails is told to whoever asked; the next goes on and is told of the broken transaction itself.
      last = sent.catch(() => {})
      return sent
    }
  transaction.queryRaw = inTurn(transaction.queryRaw.bind(transaction))
  transaction.executeRaw = inTurn(transaction.executeRaw.bind(transaction))
  return transaction
}
