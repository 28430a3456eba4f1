/** `npm run scorebook:verify`, on plain Node; it may run beside the program. */
try {
  const { checkNode, ensureClients, ensureInstalled, load, loadSettings } = await import("./install.mjs");
  checkNode();
  loadSettings();
  await ensureInstalled(console.log);
  await ensureClients(console.log);
  const { verify } = await load("verify");
  process.exit((await verify(process.argv.slice(2), console.log)) ? 0 : 1);
} catch (error) {
  console.error(error?.expected ? `\n${error.message}\n` : error);
  process.exit(1);
}
