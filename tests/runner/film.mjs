/**
 * `node tests/runner/film.mjs` films tests/browser/throw.webm after throw-film.json, with Chromium: a ball lies still for
 * some frames and leaves (x, y) at a speed and an angle, in px, m/s and degrees. It is kept as a file because a browser
 * films by the clock on the wall: on a busy machine the ball's fall would come out wrong. Run it on an idle one.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { root } from "../../lib/launch/install.mjs";
import { findChromium } from "./system.mjs";

const folder = join(root, "tests/browser");
const film = JSON.parse(readFileSync(join(folder, "throw-film.json"), "utf8"));
const browser = await chromium.launch({ executablePath: findChromium(), args: ["--no-sandbox"] });
const page = await browser.newPage();
const text = await page.evaluate(async ({ width, height, x, y, perMetre, speed, angle, still, frames }) => {
  const canvas = Object.assign(document.createElement("canvas"), { width, height });
  const brush = canvas.getContext("2d");
  const [vx, vy] = [Math.cos, Math.sin].map((of) => speed * perMetre * of((angle * Math.PI) / 180));
  const draw = (t) => {
    brush.fillStyle = "#fff";
    brush.fillRect(0, 0, width, height);
    brush.fillStyle = "#d00";
    brush.beginPath();
    brush.arc(x + vx * t, y - vy * t + 0.5 * 9.80665 * perMetre * t * t, 6, 0, 7);
    brush.fill();
  };
  const stream = canvas.captureStream(0);
  const [track] = stream.getVideoTracks();
  const recorder = new MediaRecorder(stream, { mimeType: "video/webm;codecs=vp8", videoBitsPerSecond: 2e6 });
  const parts = [];
  recorder.ondataavailable = ({ data }) => parts.push(data);
  const ended = new Promise((resolve) => {
    recorder.onstop = resolve;
  });
  recorder.start();
  // A thirtieth of a second every tenth: what the clock is late by is little of a frame.
  const from = performance.now() + 100;
  for (let i = 0; i < frames; i++) {
    await new Promise((resolve) => setTimeout(resolve, from + 100 * i - performance.now()));
    draw(Math.max(0, i - still) / 30);
    track?.requestFrame();
  }
  await new Promise((resolve) => setTimeout(resolve, 150));
  recorder.stop();
  await ended;
  const bytes = new Uint8Array(await new Blob(parts).arrayBuffer());
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
}, film);
writeFileSync(join(folder, "throw.webm"), Buffer.from(text, "base64"));
await browser.close();
