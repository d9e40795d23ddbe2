// Loaded into the app's process before anything else: if the launcher dies, even by kill -9, the channel to it closes.
// Processes the app starts load it too, but keep the channel that the app has opened to them.
if (process.ppid === Number(process.env.BENDWRIGHT_LAUNCHER_PID)) {
  process.channel?.unref()
  process.once('disconnect', () => process.kill(process.pid, 'SIGTERM'))
}
