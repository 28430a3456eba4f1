/**
 * `npm start` and `npm run dev`, on plain Node, right after a clone: installs, generates, builds what is not
 * there yet, then hands over to server.ts. PORT and HOST say where it listens, DATABASE_URL where the data are;
 * `--https` makes it serve phones on the field over https, with a certificate of its own (npm passes no argument past
 * the `||` of its script: so there is `npm run start:https`).
 */
const say = (line) => console.log(line);

try {
  const { checkNode, ensureBuilt, ensureClients, ensureInstalled, load, loadSettings } = await import(
    "./install.mjs"
  );
  const { findAddress } = await import("./address.mjs");
  checkNode();
  loadSettings();
  const development = process.argv.includes("--dev");
  process.env.NODE_ENV = development ? "development" : "production";
  process.env.NEXT_TELEMETRY_DISABLED = "1";

  if (process.argv.includes("--https")) process.env.HTTPS ||= "own";
  const address = await findAddress(); // before the long work, in case the port is taken
  await ensureInstalled(say);
  await ensureClients(say);
  if (!development) await ensureBuilt(say);
  const { secureFrom } = await load("https");
  const secure = await secureFrom(address.port);
  const { prepare } = await load("prepare");
  const { notes, close } = await prepare(address);
  for (const note of [...notes, ...(secure?.notes ?? [])]) say(note);
  const { serve } = await load("server");
  await serve(address, secure, development, close);
  say(`\nFairthrow is running: ${address.urls.join("  ")}\nCtrl-C stops it.\n`);
} catch (error) {
  if (error?.stopped) process.exit(0);
  console.error(error?.expected ? `\n${error.message}\n` : error);
  process.exit(1);
}
