// Loaded into the app's process before anything else: if the launcher dies, even by kill -9, the channel to it closes.
process.channel?.unref()
process.once('disconnect', () => process.kill(process.pid, 'SIGTERM'))
