/** `npm run db:reset`, `db:backup` and `db:restore`, on plain Node, right after a clone. */
try {
  const { isLocal } = await import("./address.mjs");
  const { checkNode, ensureClients, ensureInstalled, loadSettings } = await import("./install.mjs");
  checkNode();
  loadSettings();
  await ensureInstalled(console.log);
  await ensureClients(console.log);
  const { register } = await import("tsx/esm/api");
  register();
  const { maintain } = await import("./maintain.ts");
  await maintain(process.argv[2], process.argv.slice(3), isLocal(), console.log);
  process.exit(0);
} catch (error) {
  console.error(error?.expected ? `\n${error.message}\n` : error);
  process.exit(1);
}
