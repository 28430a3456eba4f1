/**
 * A PostgreSQL server of the tests' own: a fresh cluster in a temporary folder, on a free port of the loopback
 * interface, gone when the tests end.
 */
import { spawn, spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";

/** The folder with initdb and postgres, newest version first; undefined when PostgreSQL is not installed. */
export function findPostgresql() {
  const versions = "/usr/lib/postgresql";
  const debian = existsSync(versions)
    ? readdirSync(versions)
        .sort((a, b) => Number(b) - Number(a))
        .map((version) => join(versions, version, "bin"))
    : [];
  const folders = [...debian, ...(process.env.PATH ?? "").split(delimiter)];
  return folders.find((folder) => existsSync(join(folder, "initdb")) && existsSync(join(folder, "postgres")));
}

const isRoot = process.getuid?.() === 0;

/** PostgreSQL refuses to run as root, so then it runs as the user that its Debian package made. */
function asServerUser(program, args) {
  return isRoot ? ["runuser", ["-u", "postgres", "--", program, ...args]] : [program, args];
}

function run(program, args) {
  const [command, rest] = asServerUser(program, args);
  const { status, stdout, stderr, error } = spawnSync(command, rest, { encoding: "utf8", cwd: "/" });
  if (status !== 0) throw new Error(`${program} failed: ${stderr || stdout || error}`);
}

/** A port of the loopback interface that nobody listens on. */
export async function freePort() {
  const server = createServer();
  await new Promise((done, fail) => server.once("error", fail).listen(0, "127.0.0.1", done));
  const { port } = server.address();
  await new Promise((done) => server.close(done));
  return port;
}

/**
 * Starts the server. Answers its URL (of the database `postgres`) and `stop`, which may be called twice and
 * ends the server and deletes its folder before it returns.
 */
export async function startPostgresql() {
  const bin = findPostgresql();
  if (!bin) throw new Error("PostgreSQL is not installed.");
  const folder = mkdtempSync(join(tmpdir(), "fairthrow-postgresql-"));
  const data = join(folder, "data");
  let server;
  let stopped = false;
  const stop = () => {
    if (stopped) return;
    stopped = true;
    // pg_ctl finds the server by its own pid file, whoever runs it, and waits until it is gone.
    if (server && server.exitCode === null)
      spawnSync(...asServerUser(join(bin, "pg_ctl"), ["stop", "-D", data, "-m", "immediate", "-w"]), {
        cwd: "/",
      });
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    if (isRoot) {
      chmodSync(folder, 0o755);
      const owned = spawnSync("chown", ["postgres", folder]);
      if (owned.status !== 0) throw new Error(`chown failed: ${owned.stderr}`);
    }
    run(join(bin, "initdb"), [
      "-D",
      data,
      "-U",
      "fairthrow",
      "-A",
      "trust",
      "-E",
      "UTF8",
      "--locale=C",
      "--no-sync",
    ]);
    const port = await freePort();
    const settings = {
      listen_addresses: "127.0.0.1",
      port,
      unix_socket_directories: folder,
      fsync: "off", // a cluster that is thrown away
      timezone: "America/St_Johns", // not UTC, so that a time read in the server's zone shows
    };
    const options = Object.entries(settings).flatMap(([name, value]) => ["-c", `${name}=${value}`]);
    const [command, args] = asServerUser(join(bin, "postgres"), ["-D", data, ...options]);
    let log = "";
    // A group of its own: Ctrl-C reaches the runner alone, which then stops the server in order.
    server = spawn(command, args, { stdio: ["ignore", "ignore", "pipe"], cwd: "/", detached: true });
    server.stderr.on("data", (chunk) => {
      log = (log + chunk).slice(-4000);
    });
    server.unref();
    server.stderr.unref();
    for (const deadline = Date.now() + 30_000; ; ) {
      const ready = spawnSync(join(bin, "pg_isready"), ["-q", "-h", "127.0.0.1", "-p", String(port)]);
      if (ready.status === 0) break;
      if (server.exitCode !== null || Date.now() > deadline)
        throw new Error(`PostgreSQL did not start:\n${log}`);
      await new Promise((done) => setTimeout(done, 100));
    }
    return { url: `postgresql://fairthrow@127.0.0.1:${port}/postgres`, stop };
  } catch (error) {
    stop();
    throw error;
  }
}
