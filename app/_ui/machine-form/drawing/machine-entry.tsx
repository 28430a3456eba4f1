"use client";
/**
 * Entering a machine on its drawing: fields on both sides of it with leader lines to their letters; on a narrow
 * screen the drawing above and the fields in the order of the letters. What most leave empty is folded below.
 */
import { useLayoutEffect, useMemo, useRef, useState } from "react";
import { machineKind } from "@/lib/throw";
import { type FieldSpec, machineChoices, machineFields, startingValues, tablesOf } from "../form/fields";
import { parametersOf } from "../form/machine-specs";
import { isAsked, quantityAt } from "../form/state";
import { toleranceWords } from "../form/tolerance-words";
import { Choices, FieldOf, Fold, type SectionProps } from "../sections/fields";
import { PointsTable } from "../sections/points-table";
import { arrange, arrangementKey, drawnMachine, numbersBeside, parameterOf, placeAll } from "./drawn";
import { MachinePicture } from "./machine-picture";
import type { PlacedMark } from "./projection";

/** Radius of a letter's disc in the picture, px. */
const LETTER = 11;
/** Below this width only the letters fit on the drawing, px. */
const ROOM_FOR_NUMBERS = 480;

export function MachineEntry(props: SectionProps) {
  const { form, onVisited } = props;
  const { kind, system } = form;
  const [width, setWidth] = useState(600);
  const [active, setActive] = useState<string | null>(null);
  const [moreOpen, setMoreOpen] = useState(false);
  const stage = useRef<HTMLDivElement>(null);
  const frame = useRef<HTMLDivElement>(null);
  const key = arrangementKey(form);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fixed for the kind and its choices, whatever is typed
  const arrangement = useMemo(() => arrange(form), [key]);
  const title = machineKind(kind).title;
  // By value: only numbers that change the drawing draw it anew.
  const drawn = JSON.stringify(drawnMachine(form));
  const { drawing, projection, placed } = useMemo(() => placeAll(JSON.parse(drawn), width), [drawn, width]);
  const numbers = numbersBeside(form);
  const diameter =
    quantityAt(form, "projectile.diameter").value ?? (startingValues(kind)["projectile.diameter"] as number);

  useLayoutEffect(() => {
    const element = frame.current;
    if (!element) return;
    const measure = () => setWidth(Math.max(260, Math.round(element.clientWidth)));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  const folded = new Set(arrangement.more.map(parameterOf));
  const shown = useMemo(
    () =>
      placed.filter(
        ({ mark: { parameter } }) =>
          parameter in arrangement.letters &&
          (moreOpen ||
            parameter === active ||
            !arrangement.more.some((spec) => parameterOf(spec) === parameter)),
      ),
    [placed, arrangement, moreOpen, active],
  );
  const beside = Object.fromEntries(
    Object.entries(numbers).filter(
      ([name]) => name === active || (width >= ROOM_FOR_NUMBERS && !folded.has(name)),
    ),
  );
  const field = (spec: FieldSpec) => {
    const name = parameterOf(spec);
    const letter = arrangement.letters[name];
    return (
      <div className="entry-field" data-parameter={name} key={spec.path}>
        <FieldOf
          {...props}
          spec={spec}
          label={
            <>
              {letter ? <span className="entry-letter">{letter}</span> : null} {spec.label}
            </>
          }
          onFocus={() => setActive(name)}
          onBlur={() => setActive(null)}
          onVisited={onVisited}
        />
      </div>
    );
  };
  const choices = machineChoices(kind);
  const ownChoices = choices.filter(({ path }) => path !== "machine.base");
  const standing = choices.filter(({ path }) => path === "machine.base");

  return (
    <>
      {ownChoices.length > 0 ? (
        <div className="field-grid">
          <Choices {...props} specs={ownChoices} />
        </div>
      ) : null}
      <div className="entry" ref={stage}>
        <div className="entry-drawing">
          <div ref={frame}>
            <MachinePicture
              drawing={drawing}
              projection={projection}
              placed={shown}
              letters={arrangement.letters}
              numbers={beside}
              active={active}
              diameter={diameter}
              system={system}
              title={title}
            />
          </div>
          <p className="entry-hint">
            {hintOf(props, active, arrangement.letters) ??
              `${drawing.note} Where a number is missing, the example's is drawn.`}
          </p>
        </div>
        <div className="entry-column entry-left">{arrangement.left.map(field)}</div>
        <div className="entry-column entry-right">{arrangement.right.map(field)}</div>
        <Leaders stage={stage} frame={frame} placed={shown} active={active} />
      </div>
      {arrangement.below.length > 0 ? <div className="field-grid">{arrangement.below.map(field)}</div> : null}
      {tablesOf(kind).map((table) => (
        <PointsTable key={table.path} table={table} letter={arrangement.letters[table.name]} {...props} />
      ))}
      {arrangement.more.length + standing.length > 0 ? (
        <Fold title={moreTitle(arrangement.more, standing.length > 0)} onToggle={setMoreOpen}>
          <div className="field-grid">
            <Choices {...props} specs={standing} />
            {arrangement.more.map(field)}
          </div>
        </Fold>
      ) : null}
    </>
  );
}

/** What is folded away, by its first names. */
function moreTitle(more: readonly FieldSpec[], base: boolean): string {
  const names = [...(base ? ["base"] : []), ...more.map(({ label }) => label.toLowerCase())];
  const some = names.slice(0, 3).join(", ");
  return `More of this machine: ${some}${names.length > 3 ? " and more" : ""}`;
}

/** What the field with the focus measures, and how well it is taken to be known. */
function hintOf(
  { form }: SectionProps,
  active: string | null,
  letters: Readonly<Record<string, string>>,
): string | null {
  const spec = machineFields(form.kind).find((each) => parameterOf(each) === active);
  if (!spec || !active || !isAsked(form, spec)) return null;
  const parameter = parametersOf(form.kind).find(({ name }) => name === active);
  const tolerance = quantityAt(form, `tolerances.${active}`).value;
  const known =
    parameter && tolerance === null
      ? ` Its tolerance: ${lower(toleranceWords(parameter, quantityAt(form, spec.path).value, form.system))}`
      : "";
  return `${letters[active] ? `${letters[active]} · ` : ""}${spec.label}. ${spec.help}${known}`;
}

const lower = (sentence: string) => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** Leader lines from the fields beside the drawing to their letters; none where the fields are below it. */
function Leaders({
  stage,
  frame,
  placed,
  active,
}: {
  stage: React.RefObject<HTMLDivElement | null>;
  frame: React.RefObject<HTMLDivElement | null>;
  placed: readonly PlacedMark[];
  active: string | null;
}) {
  const [lines, setLines] = useState<readonly { name: string; d: string }[]>([]);

  useLayoutEffect(() => {
    const [outer, picture] = [stage.current, frame.current];
    if (!outer || !picture) return;
    const measure = () => {
      const base = outer.getBoundingClientRect();
      const drawn = picture.getBoundingClientRect();
      const next: { name: string; d: string }[] = [];
      for (const { mark, letter } of placed) {
        const input = outer
          .querySelector(`[data-parameter="${mark.parameter}"] input`)
          ?.getBoundingClientRect();
        if (!input) continue;
        const beside =
          input.right <= drawn.left + 2 ? input.right : input.left >= drawn.right - 2 ? input.left : null;
        if (beside === null) continue;
        const x = drawn.left - base.left + letter[0];
        const y = drawn.top - base.top + letter[1];
        const from = [beside - base.left, (input.top + input.bottom) / 2 - base.top] as const;
        const turn = from[0] + (beside === input.right ? 22 : -22);
        // The line ends at the rim of the letter's disc.
        const left = Math.hypot(x - turn, y - from[1]) || 1;
        const rim = Math.max(0, 1 - LETTER / left);
        const end = `${turn + (x - turn) * rim} ${from[1] + (y - from[1]) * rim}`;
        next.push({ name: mark.parameter, d: `M${from[0]} ${from[1]}H${turn}L${end}` });
      }
      setLines(next);
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(outer);
    return () => observer.disconnect();
  }, [stage, frame, placed]);

  return (
    <svg className="leaders" aria-hidden="true" focusable="false">
      {lines.map(({ name, d }) => (
        <path key={name} d={d} className={name === active ? "leader leader-active" : "leader"} />
      ))}
    </svg>
  );
}
