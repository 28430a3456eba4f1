/** A judge's phone in a network of its own, on which the program's authority is installed as a person installs it. */
import { spawnSync } from "node:child_process";
import { createHash, X509Certificate } from "node:crypto";
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium } from "playwright-core";
import { CHROMIUM, SCREENS } from "../support";
import { makeNetwork } from "./network";

export interface Phone {
  context: BrowserContext;
  /** Takes the network away, and gives it back. */
  cut: () => Promise<void>;
  mend: () => Promise<void>;
  close: () => Promise<void>;
}

export interface Program {
  /** What the phone calls this machine. */
  host: string;
  port: number;
  /** The file of its certificate authority, PEM. */
  authority: string;
}

/** Chromium in a network namespace; the link of that is really taken down. */
export async function phoneInOwnNetwork({ host, port, authority }: Program): Promise<Phone> {
  const network = makeNetwork([host]);
  const home = mkdtempSync(join(tmpdir(), "fairthrow-phone-"));
  const store = join(home, ".pki/nssdb");
  mkdirSync(store, { recursive: true });
  certutil("-N", "--empty-password", "-d", `sql:${store}`);
  certutil("-A", "-d", `sql:${store}`, "-n", "Fairthrow", "-t", "C,,", "-i", authority);
  const executablePath = join(home, "chromium");
  const inside = `exec ip netns exec ${network.name} ${CHROMIUM.executablePath} "$@"`;
  writeFileSync(executablePath, `#!/bin/sh\n${inside}\n`);
  chmodSync(executablePath, 0o755);
  const env = { ...process.env, HOME: home } as Record<string, string>;
  const browser = await chromium.launch({ ...CHROMIUM, executablePath, env });
  return {
    context: await contextOf(browser, host, port),
    cut: async () => network.cut(),
    mend: async () => network.mend(),
    close: async () => {
      await browser.close();
      network.remove();
      rmSync(home, { recursive: true, force: true });
    },
  };
}

/** Where no network can be made: the loopback interface under the name, and a browser that is told to be offline. */
export async function phoneOnLoopback({ host, port, authority }: Program): Promise<Phone> {
  const key = new X509Certificate(readFileSync(authority)).publicKey.export({ type: "spki", format: "der" });
  const browser = await chromium.launch({
    ...CHROMIUM,
    args: [
      ...CHROMIUM.args,
      `--host-resolver-rules=MAP ${host} 127.0.0.1`,
      `--ignore-certificate-errors-spki-list=${createHash("sha256").update(key).digest("base64")}`,
    ],
  });
  const context = await contextOf(browser, host, port);
  return {
    context,
    cut: () => context.setOffline(true),
    mend: () => context.setOffline(false),
    close: () => browser.close(),
  };
}

const contextOf = (browser: Browser, host: string, port: number) =>
  browser.newContext({ baseURL: `https://${host}:${port}`, ...SCREENS.phone });

function certutil(...args: string[]): void {
  const { status, stderr, error } = spawnSync("certutil", args, { encoding: "utf8" });
  if (status !== 0) throw new Error(`certutil ${args[0]}: ${error?.message ?? stderr}`);
}
