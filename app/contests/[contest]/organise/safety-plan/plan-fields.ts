/** The fields of the safety plan, by their path in it, and the plan that a filled form means. */
import { positionText, readPosition } from "@/app/_ui/position";
import { textOf } from "@/app/_ui/write/form-values";
import type { SafetyPlan } from "@/lib/api/contracts";

export interface TextAsked {
  path: string;
  label: string;
  help?: string;
  /** Lines; one is a plain field. */
  rows?: number;
}

const place = (path: string, label: string, help: string): TextAsked[] => [
  { path: `${path}.words`, label, help, rows: 2 },
  { path: `${path}.at`, label: `${label}: position`, help: "Latitude, longitude, if somebody knows it." },
];

/** Common practice, no source. */
export const SECTIONS: readonly { title: string; fields: readonly TextAsked[] }[] = [
  {
    title: "Emergency",
    fields: [
      { path: "emergency.number", label: "Emergency call number", help: "As it is dialled at this site." },
      {
        path: "emergency.whatToSay",
        label: "What to say",
        help: "Where we are (road, gate, position), what happened, how many are hurt, who waits at the rendezvous.",
        rows: 4,
      },
      ...place(
        "ambulance",
        "Rendezvous for the ambulance",
        "A gate that a driver finds, and who waits there.",
      ),
      ...place("fireService", "Rendezvous for the fire service", "A gate and track that carry an engine."),
      ...place("firstAid", "First-aid post", "Where it is and what it has."),
      {
        path: "hospital",
        label: "Nearest hospital",
        help: "Name, town, and the way to it in words.",
        rows: 2,
      },
      {
        path: "fireEquipment",
        label: "Fire equipment",
        help: "What there is, and where it stands.",
        rows: 2,
      },
    ],
  },
  {
    title: "Stopping the range",
    fields: [
      { path: "stop.who", label: "Who stops it", help: "A role: common practice is that anybody may." },
      { path: "stop.horn", label: "Horn", help: "Such as: one long blast means hold." },
      { path: "stop.flag", label: "Flag", help: "Which, and from where it is seen." },
      { path: "stop.radio", label: "Radio", help: "Channel and word." },
    ],
  },
];

export const BRIEFINGS: readonly TextAsked[] = [
  {
    path: "briefing.officials",
    label: "Briefing of officials",
    help: "Posts, signals, who may call hold, what is done with a misfire, the plan above.",
    rows: 6,
  },
  {
    path: "briefing.crews",
    label: "Briefing of crews",
    help: "Stand-clear lists, nobody in front or behind, made safe before anybody goes downrange.",
    rows: 6,
  },
  {
    path: "briefing.spectators",
    label: "Words for spectators",
    help: "Where to stand, what the horn means, what to do with children and dogs.",
    rows: 4,
  },
];

export const NATURE: readonly TextAsked[] = [
  { path: "nature.insects", label: "Insects", help: "Nests on the field, stings, ticks.", rows: 2 },
  {
    path: "nature.animals",
    label: "Animals",
    help: "Livestock and wildlife; who looks before firing.",
    rows: 2,
  },
  { path: "nature.dryGrass", label: "Dry grass", help: "When no fire, no smoking, no hot work.", rows: 2 },
];

const TEXTS = [...SECTIONS.flatMap(({ fields }) => fields), ...BRIEFINGS, ...NATURE];

/** What stands in the plan at a path, as its field shows it. */
export function shown(plan: SafetyPlan, path: string): string {
  const value = path.split(".").reduce<unknown>((part, key) => (part as Record<string, unknown>)[key], plan);
  if (path.endsWith(".at"))
    return value ? positionText(value as { latitude: number; longitude: number }) : "";
  return String(value ?? "");
}

/** One briefed role or team a line: who; when. */
export const briefedText = (briefed: SafetyPlan["briefed"]): string =>
  briefed.map(({ who, when }) => (when ? `${who}; ${when}` : who)).join("\n");

function readBriefed(text: string): SafetyPlan["briefed"] {
  return text
    .split("\n")
    .map((line) => line.split(";").map((part) => part.trim()))
    .filter(([who]) => who)
    .map(([who = "", ...when]) => ({ who, when: when.join("; ") }));
}

/** The plan as it goes to the server; a sentence when a position cannot be read. */
export function planOf(form: FormData, visibility: number | null): Record<string, unknown> | string {
  const plan: Record<string, unknown> = {};
  const put = (path: string, value: unknown) => {
    const [first = "", second] = path.split(".");
    if (!second) plan[first] = value;
    else plan[first] = { ...(plan[first] as object | undefined), [second]: value };
  };
  for (const { path, label } of TEXTS) {
    const text = textOf(form, path);
    if (!path.endsWith(".at")) {
      put(path, text);
      continue;
    }
    const read = readPosition(text);
    if (!read.ok && !read.empty) return `${label}: ${read.message.replace(/^Position: /, "")}`;
    put(path, read.ok ? read.position : null);
  }
  put("lightning.flashToBang", Number(textOf(form, "lightning.flashToBang")));
  put("lightning.wait", Number(textOf(form, "lightning.wait")) * 60);
  put("light.earliest", textOf(form, "light.earliest") || null);
  put("light.latest", textOf(form, "light.latest") || null);
  put("light.visibility", visibility);
  put("briefed", readBriefed(textOf(form, "briefed")));
  return plan;
}
