/**
 * Reading XML without trust: no DOCTYPE, no entities but the five of XML, bounded depth and count. What is read becomes
 * plain nodes with local names, because exporters disagree on prefixes.
 */
import { SaxesParser } from "saxes";
import { FileRefusal } from "./items";

export interface XmlNode {
  name: string;
  attributes: Record<string, string>;
  children: XmlNode[];
  /** All text directly inside it, as written. */
  text: string;
}

const DEPTH = 64;
const ELEMENTS = 400_000;
const ATTRIBUTES = 200_000;

const local = (name: string) => name.slice(name.indexOf(":") + 1);

/** The root element. Throws FileRefusal, with line and column where there is one. */
export function readXml(text: string): XmlNode {
  const parser = new SaxesParser();
  const open: XmlNode[] = [];
  let root: XmlNode | null = null;
  let elements = 0;
  let attributes = 0;
  parser.on("error", (error) => {
    throw new FileRefusal(
      `The XML is broken at line ${error.message.replace(/^(\d+):(\d+): (.*?)\.?$/, "$1, column $2: $3")}. Export the file again.`,
    );
  });
  parser.on("doctype", () => {
    throw new FileRefusal(
      "The file declares a DOCTYPE, which is not read: it can hide entities. Remove it, or export the file again.",
    );
  });
  parser.on("opentagstart", () => {
    if (open.length >= DEPTH)
      throw new FileRefusal(`The XML is nested deeper than ${DEPTH} levels, which no site needs.`);
    if (++elements > ELEMENTS)
      throw new FileRefusal(`The XML has more than ${ELEMENTS} elements. Split the file.`);
  });
  parser.on("attribute", () => {
    if (++attributes > ATTRIBUTES)
      throw new FileRefusal(`The XML has more than ${ATTRIBUTES} attributes. Split the file.`);
  });
  parser.on("opentag", ({ name, attributes: named }) => {
    const node: XmlNode = {
      name: local(name),
      attributes: Object.fromEntries(Object.entries(named).map(([key, value]) => [local(key), value])),
      children: [],
      text: "",
    };
    open.at(-1)?.children.push(node);
    root ??= node;
    open.push(node);
  });
  parser.on("closetag", () => {
    open.pop();
  });
  const add = (words: string) => {
    const node = open.at(-1);
    if (node) node.text += words;
  };
  parser.on("text", add);
  parser.on("cdata", add);
  parser.write(text).close();
  if (!root) throw new FileRefusal("The XML holds nothing.");
  return root;
}

export const childOf = (node: XmlNode | undefined, name: string): XmlNode | undefined =>
  node?.children.find((child) => child.name === name);

export const childrenOf = (node: XmlNode | undefined, name: string): XmlNode[] =>
  node?.children.filter((child) => child.name === name) ?? [];

export const textOf = (node: XmlNode | undefined, name: string): string =>
  childOf(node, name)?.text.trim() ?? "";

/** Text as XML may hold it: control characters have no place in XML, line ends keep theirs. */
export function escaped(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
      .replace(/[\0-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]/g, "\ufffd")
      .toWellFormed()
      .replace(/[&<>\r]/g, (sign) => ESCAPES[sign] as string)
  );
}

const ESCAPES: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", "\r": "&#13;" };
