/** The program's own https: who trusts the authority reaches it by name and address, and nobody else is vouched for. */
import { mkdtempSync, rmSync, statSync } from "node:fs";
import {
  type ClientRequest,
  type IncomingMessage,
  request as plainRequest,
  createServer as plainServer,
} from "node:http";
import { createServer, request } from "node:https";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { certificatesFor, serialNumber } from "@/lib/launch/https/authority";
import { eitherWay } from "@/lib/launch/https/either-way";
import { answerPhone, answerPlain } from "@/lib/launch/https/phone-page";

const NAMES = ["fair-laptop", "fair-laptop.local", "127.0.0.1", "::1"];
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "fairthrow-https-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const DAY = 86_400_000;

it("makes an authority once, and keeps its keys to itself", () => {
  const first = certificatesFor(NAMES, folder);
  expect(first.isNew).toBe(true);
  for (const name of ["authority-key.pem", "server-key.pem"])
    expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600);
  expect(certificatesFor(NAMES, folder)).toEqual({ ...first, isNew: false });
  // A new address takes a new certificate of the same authority: phones need nothing.
  const moved = certificatesFor([...NAMES, "192.168.7.9"], folder);
  expect(moved.fingerprint).toBe(first.fingerprint);
  expect(moved.certificate).not.toBe(first.certificate);
  // So does the next year.
  const later = certificatesFor(NAMES, folder, new Date(Date.now() + 380 * DAY));
  expect(later.fingerprint).toBe(first.fingerprint);
  expect(later.certificate).not.toBe(moved.certificate);
});

/** A server as the program makes it, on a free port. */
async function serve(names: readonly string[], at: string) {
  const made = certificatesFor(names, at);
  const guide = { authority: made.authority, fingerprint: made.fingerprint, host: "fair-laptop:3000" };
  const tls = createServer({ key: made.key, cert: made.certificate }, (asked, answer) => {
    if (!answerPhone(asked, answer, guide)) answer.end("secure");
  });
  const plain = plainServer((asked, answer) => answerPlain(asked, answer, guide));
  const sockets = eitherWay(tls, plain);
  await new Promise<void>((resolve) => sockets.listen(0, "127.0.0.1", resolve));
  const { port } = sockets.address() as AddressInfo;
  return { ...made, port, close: () => sockets.close() };
}

interface Answer {
  status: number | undefined;
  headers: IncomingMessage["headers"];
  text: string;
}
const reading = (start: (done: (answer: IncomingMessage) => void) => ClientRequest) =>
  new Promise<Answer>((resolve, reject) => {
    const asked = start((answer) => {
      let text = "";
      answer.setEncoding("utf8").on("data", (part: string) => {
        text += part;
      });
      answer.on("end", () => resolve({ status: answer.statusCode, headers: answer.headers, text }));
    });
    asked.on("error", reject);
    asked.end();
  });

const secureGet = (port: number, servername: string, ca: string, path = "/") =>
  reading((done) => request({ host: "127.0.0.1", port, path, ca, servername, agent: false }, done));
const plainGet = (port: number, path: string, method = "GET") =>
  reading((done) => plainRequest({ host: "127.0.0.1", port, path, method, agent: false }, done));

it("numbers certificates with the shortest positive integer, whatever the bytes are", () => {
  expect(serialNumber(Uint8Array.of(0, 0, 1))).toBe("400001");
  expect(serialNumber(Uint8Array.of(0xff, 0x80, 0))).toBe("7f8000");
});

it("is trusted by name with its authority alone, and by nobody without", async () => {
  const server = await serve(NAMES, folder);
  expect((await secureGet(server.port, "fair-laptop.local", server.authority)).text).toBe("secure");
  await expect(secureGet(server.port, "other.local", server.authority)).rejects.toThrow(/altnames/);
  const stranger = mkdtempSync(join(folder, "stranger-"));
  const { authority } = certificatesFor(NAMES, stranger);
  await expect(secureGet(server.port, "fair-laptop", authority)).rejects.toThrow(/certificate/);
  server.close();
});

it("vouches for local names, and for others only where they were asked for", async () => {
  const own = mkdtempSync(join(folder, "names-"));
  const first = certificatesFor(["fair.test", "10.0.0.7"], own);
  const asked = await serve(["judges.example", "fair.test"], own);
  // That one needs another authority, which phones must be told of.
  expect(asked.isNew).toBe(true);
  expect(asked.fingerprint).not.toBe(first.fingerprint);
  expect((await secureGet(asked.port, "judges.example", asked.authority)).text).toBe("secure");
  asked.close();
});

it("tells who comes by plain http how a phone is set up, and takes nothing else there", async () => {
  const server = await serve(NAMES, folder);
  const sent = await plainGet(server.port, "/contests/harvest/judge");
  expect([sent.status, sent.headers.location]).toEqual([302, "/phone"]);
  const page = await plainGet(server.port, "/phone");
  expect(page.text).toContain(server.fingerprint);
  expect(page.text).toContain("https://fair-laptop:3000/");
  const file = await plainGet(server.port, "/phone/authority.crt");
  expect(file.headers["content-type"]).toBe("application/x-x509-ca-cert");
  expect(file.text).toBe(server.authority);
  expect((await plainGet(server.port, "/api/v1/sign-in", "POST")).status).toBe(403);
  expect((await secureGet(server.port, "fair-laptop", server.authority, "/phone")).text).toBe(page.text);
  server.close();
});
