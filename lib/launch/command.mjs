/** What every command on plain Node begins and ends with, right after a clone: what it needs is installed, errors are told. */

/**
 * @param run is given `load` of install.mjs and the words after the command; false or an error ends with code 1
 */
export async function command(run) {
  try {
    const { checkNode, ensureClients, ensureInstalled, load, loadSettings } = await import("./install.mjs");
    checkNode();
    loadSettings();
    await ensureInstalled(console.log);
    await ensureClients(console.log);
    process.exit((await run(load, process.argv.slice(2))) === false ? 1 : 0);
  } catch (error) {
    console.error(error?.expected ? `\n${error.message}\n` : error);
    process.exit(1);
  }
}
