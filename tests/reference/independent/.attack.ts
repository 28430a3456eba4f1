import { appendFileSync } from "node:fs";
import { hazardSheet } from "@/lib/throw";
import { convergedAnswer, disagreements } from "./compare";
import { randomCase } from "./random-machines";
import { exactRequest } from "./request";

const [from, to, step] = process.argv.slice(2, 5).map(Number);
const out = process.argv[5];
for (let seed = from; seed < to; seed += step) {
  const c = randomCase(seed);
  let line: any = { seed, kind: c.machine.kind };
  let req;
  try {
    req = exactRequest(c.machine, c.projectile);
  } catch (e: any) {
    line.refused = e.issues?.map((i: any) => i.path.join(".") + ": " + i.message) ?? String(e);
  }
  let sheet;
  if (req)
    try {
      const t = performance.now();
      sheet = hazardSheet(req);
      line.ms = (performance.now() - t) | 0;
    } catch (e) {
      line.engineError = String(e);
    }
  let own;
  try {
    own = convergedAnswer(c);
    line.settled = own.settled;
  } catch (e) {
    line.ownError = String(e);
  }
  if (sheet && own) {
    line.dis = disagreements(sheet, own);
    line.fwd = sheet.worst.forward.distance;
  }
  if (line.refused && own) line.own = [own.nominal, own.worst.forward.distance, own.worst.backward.distance];
  if (line.dis?.length || line.refused || line.engineError || line.ownError) {
    line.case = c;
    if (own)
      line.events = own.swing.events
        .slice(0, 30)
        .map((e) => e.kind + e.branch[0] + e.t.toFixed(4))
        .join(" ");
  }
  appendFileSync(out, JSON.stringify(line) + "\n");
}
