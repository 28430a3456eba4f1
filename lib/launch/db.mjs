/** `npm run db:reset`, `db:backup` and `db:restore`, on plain Node, right after a clone. */
try {
  const { isLocal } = await import("./address.mjs");
  const { checkNode, ensureClients, ensureInstalled, load, loadSettings } = await import("./install.mjs");
  checkNode();
  loadSettings();
  await ensureInstalled(console.log);
  await ensureClients(console.log);
  const { maintain } = await load("maintain");
  await maintain(process.argv[2], process.argv.slice(3), isLocal(), console.log);
  process.exit(0);
} catch (error) {
  console.error(error?.expected ? `\n${error.message}\n` : error);
  process.exit(1);
}
