/**
 * The program's own certificate authority, for a field without a public name: made once, kept in the data folder,
 * installed on every phone. It may vouch for names and addresses of local networks and for nothing else, so that what
 * a phone trusts here cannot speak for the rest of the web.
 */
import { generateKeyPairSync, randomBytes, X509Certificate } from "node:crypto";
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { isIP } from "node:net";
import { join } from "node:path";
import forge from "node-forge";

export interface Certificates {
  /** PEM. */
  key: string;
  /** PEM: the server's and the authority's. */
  certificate: string;
  /** PEM. */
  authority: string;
  /** SHA-256 of the authority, "AB:CD:…", to compare on the phone. */
  fingerprint: string;
  /** The authority was made just now: phones that had an older one need this one. */
  isNew: boolean;
}

const DAY = 86_400_000;
const AUTHORITY_DAYS = 3650;
/** Phones refuse a certificate that is valid for longer (398 days). */
const SERVER_DAYS = 390;
/** Made anew when it has less than this to go. */
const SPARE_DAYS = 30;

/** Endings of names that no one can own on the public web, and what the laptop itself is called. */
const LOCAL_NAMES = ["localhost", "local", "lan", "home.arpa", "internal", "test"];
/** Address and mask: private, link-local and loopback networks (RFC 1918, 3927, 4193, 4291). */
const LOCAL_NETWORKS = [
  ["10.0.0.0", "255.0.0.0"],
  ["172.16.0.0", "255.240.0.0"],
  ["192.168.0.0", "255.255.0.0"],
  ["169.254.0.0", "255.255.0.0"],
  ["127.0.0.0", "255.0.0.0"],
  ["fc00::", "fe00::"],
  ["fe80::", "ffc0::"],
  ["::1", "ffff:ffff:ffff:ffff:ffff:ffff:ffff:ffff"],
] as const;

/**
 * The certificate for these names and addresses, made or made anew as need be. `folder` is readable by its owner
 * alone, and so are the keys.
 */
export function certificatesFor(names: readonly string[], folder: string, now = new Date()): Certificates {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  chmodSync(folder, 0o700);
  const path = (name: string) => join(folder, name);
  const files = {
    authorityKey: path("authority-key.pem"),
    authority: path("authority.pem"),
    key: path("server-key.pem"),
    server: path("server.pem"),
  };

  const strangers = names.filter((name) => !isLocal(name));
  let isNew = false;
  if (!holds(files.authority, files.authorityKey, now) || !vouchesFor(read(files.authority), strangers)) {
    const made = makeAuthority(strangers, now);
    writeSecret(files.authorityKey, made.key);
    writeFileSync(files.authority, made.certificate);
    isNew = true;
  }
  const authority = read(files.authority);
  const kept = !isNew && holds(files.server, files.key, now) && isFor(read(files.server), names, authority);
  if (!kept) {
    const made = makeServer(names, read(files.authorityKey), authority, now);
    writeSecret(files.key, made.key);
    writeFileSync(files.server, made.certificate);
  }
  return {
    key: read(files.key),
    certificate: read(files.server) + authority,
    authority,
    fingerprint: new X509Certificate(authority).fingerprint256,
    isNew,
  };
}

const read = (file: string) => readFileSync(file, "utf8");

function writeSecret(file: string, text: string): void {
  writeFileSync(file, text, { mode: 0o600 });
  // A file that was there keeps its mode.
  chmodSync(file, 0o600);
}

function holds(certificate: string, key: string, now: Date): boolean {
  if (!existsSync(certificate) || !existsSync(key)) return false;
  const { validFrom, validTo } = new X509Certificate(read(certificate));
  // A laptop whose clock stood elsewhere when it was made would be refused by every phone.
  return Date.parse(validFrom) <= now.getTime() && now.getTime() + SPARE_DAYS * DAY < Date.parse(validTo);
}

const isFor = (pem: string, names: readonly string[], authority: string): boolean => {
  const certificate = new X509Certificate(pem);
  return (
    certificate.checkIssued(new X509Certificate(authority)) &&
    names.every(
      (name) => (isIP(name) ? certificate.checkIP(name) : certificate.checkHost(name)) !== undefined,
    )
  );
};

/** Names beyond the local networks' stand in the authority's subject, where a later start finds them. */
const vouchesFor = (authority: string, strangers: readonly string[]): boolean => {
  const { subject } = new X509Certificate(authority);
  return strangers.every((name) => subject.split("\n").includes(`OU=${name}`));
};

function isLocal(name: string): boolean {
  if (!isIP(name)) return LOCAL_NAMES.some((end) => name === end || name.endsWith(`.${end}`));
  const bytes = addressBytes(name);
  return LOCAL_NETWORKS.some(([network, mask]) => {
    const [wanted, masked] = [addressBytes(network), addressBytes(mask)];
    return (
      wanted.length === bytes.length &&
      [...bytes].every((byte, at) => (byte & (masked[at] ?? 0)) === wanted[at])
    );
  });
}

function makeAuthority(strangers: readonly string[], now: Date) {
  const { publicKey, privateKey } = newKeys();
  const subject = [
    { name: "commonName", value: `Fairthrow, this laptop only ${randomBytes(3).toString("hex")}` },
    { name: "organizationName", value: "Fairthrow" },
    ...strangers.map((value) => ({ shortName: "OU", value })),
  ];
  const certificate = blank(publicKey, AUTHORITY_DAYS, now);
  certificate.setSubject(subject);
  certificate.setIssuer(subject);
  certificate.setExtensions([
    { name: "basicConstraints", cA: true, pathLenConstraint: 0, critical: true },
    { name: "keyUsage", keyCertSign: true, critical: true },
    { id: "2.5.29.30", critical: true, value: permitted(strangers) },
    { name: "subjectKeyIdentifier" },
  ]);
  certificate.sign(privateKey, forge.md.sha256.create());
  return { key: forge.pki.privateKeyToPem(privateKey), certificate: pemOf(certificate) };
}

function makeServer(names: readonly string[], authorityKey: string, authorityPem: string, now: Date) {
  const { publicKey, privateKey } = newKeys();
  const authority = forge.pki.certificateFromPem(authorityPem);
  const certificate = blank(publicKey, SERVER_DAYS, now);
  certificate.setSubject([{ name: "commonName", value: names[0] ?? "localhost" }]);
  certificate.setIssuer(authority.subject.attributes);
  certificate.setExtensions([
    { name: "basicConstraints", cA: false, critical: true },
    { name: "keyUsage", digitalSignature: true, keyEncipherment: true, critical: true },
    { name: "extKeyUsage", serverAuth: true },
    {
      name: "subjectAltName",
      altNames: names.map((name) => (isIP(name) ? { type: 7, ip: name } : { type: 2, value: name })),
    },
    { name: "subjectKeyIdentifier" },
    {
      name: "authorityKeyIdentifier",
      keyIdentifier: authority.generateSubjectKeyIdentifier().getBytes(),
    },
  ]);
  certificate.sign(forge.pki.privateKeyFromPem(authorityKey), forge.md.sha256.create());
  return { key: forge.pki.privateKeyToPem(privateKey), certificate: pemOf(certificate) };
}

/** Node makes the keys: a hundred times faster than JavaScript. */
function newKeys() {
  const { publicKey, privateKey } = generateKeyPairSync("rsa", {
    modulusLength: 2048,
    publicKeyEncoding: { type: "spki", format: "pem" },
    privateKeyEncoding: { type: "pkcs8", format: "pem" },
  });
  return {
    publicKey: forge.pki.publicKeyFromPem(publicKey),
    privateKey: forge.pki.privateKeyFromPem(privateKey),
  };
}

/**
 * Hex of a serial number (RFC 5280, 4.1.2.2), which must be positive, and whose DER must not begin with a byte that could
 * be left out: the first bits are 01 whatever the bytes are.
 */
export function serialNumber(random: Uint8Array): string {
  const [first = 0, ...rest] = random;
  return Buffer.from([(first & 0x7f) | 0x40, ...rest]).toString("hex");
}

function blank(publicKey: forge.pki.rsa.PublicKey, days: number, now: Date): forge.pki.Certificate {
  const certificate = forge.pki.createCertificate();
  certificate.publicKey = publicKey;
  certificate.serialNumber = serialNumber(randomBytes(16));
  // Phones whose clock is behind take it too.
  certificate.validity.notBefore = new Date(now.getTime() - DAY);
  certificate.validity.notAfter = new Date(now.getTime() + days * DAY);
  return certificate;
}

const pemOf = (certificate: forge.pki.Certificate) =>
  forge.pki.certificateToPem(certificate).replaceAll("\r\n", "\n");

/** The extension NameConstraints (RFC 5280, 4.2.1.10) with permitted subtrees alone, DER. */
function permitted(strangers: readonly string[]): string {
  const { asn1 } = forge;
  const { Class, Type } = asn1;
  const tree = (tag: number, value: string) =>
    asn1.create(Class.UNIVERSAL, Type.SEQUENCE, true, [
      asn1.create(Class.CONTEXT_SPECIFIC, tag, false, value),
    ]);
  const address = (...parts: string[]) => tree(7, Buffer.concat(parts.map(addressBytes)).toString("latin1"));
  const trees = [
    ...LOCAL_NAMES.map((name) => tree(2, name)),
    ...LOCAL_NETWORKS.map(([network, mask]) => address(network, mask)),
    ...strangers.map((name) =>
      isIP(name)
        ? address(name, isIP(name) === 4 ? "255.255.255.255" : "ffff:ffff:ffff:ffff:ffff:ffff:ffff:ffff")
        : tree(2, name),
    ),
  ];
  const all = asn1.create(Class.UNIVERSAL, Type.SEQUENCE, true, [
    asn1.create(Class.CONTEXT_SPECIFIC, 0, true, trees),
  ]);
  return asn1.toDer(all).getBytes();
}

/** Four bytes, or sixteen. */
function addressBytes(address: string): Buffer {
  if (isIP(address) === 4) return Buffer.from(address.split(".").map(Number));
  const [head = "", tail] = address.split("::");
  const words = (part: string) => part.split(":").filter(Boolean);
  const [before, after] = [words(head), words(tail ?? "")];
  const zeros = tail === undefined ? 0 : 8 - before.length - after.length;
  const all = [...before, ...new Array<string>(zeros).fill("0"), ...after];
  return Buffer.from(all.map((word) => word.padStart(4, "0")).join(""), "hex");
}
