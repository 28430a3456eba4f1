"use client";
/**
 * Entering a machine on its drawing: fields on both sides of it with leader lines to their letters; on a narrow
 * screen the drawing above and the fields in the order of the letters.
 */
import { useCallback, useLayoutEffect, useMemo, useRef, useState } from "react";
import { type Quantity, QuantityField } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { machineKind } from "@/lib/throw";
import { type FieldSpec, fieldId, type Kind, machineFields, startingValues } from "../form/fields";
import type { FieldErrors } from "../form/request";
import { drawMachine, type Numbers } from "./geometry";
import { MachinePicture } from "./machine-picture";
import { type PlacedPointer, placePointer, project } from "./projection";

/** Radius of a letter's disc in the picture, px. */
const LETTER = 11;

const parameterOf = (spec: FieldSpec) => spec.path.slice("machine.".length);

interface Arrangement {
  left: readonly FieldSpec[];
  right: readonly FieldSpec[];
  letters: Readonly<Record<string, string>>;
}

const numbersFor = (kind: Kind, value: (path: string) => number | null): Numbers => {
  const start = startingValues(kind);
  const numbers: Record<string, number> = {};
  for (const spec of machineFields(kind)) {
    const entered = value(spec.path);
    const drawn = entered ?? (spec.optional ? undefined : start[spec.path]);
    if (drawn !== undefined) numbers[parameterOf(spec)] = drawn;
  }
  numbers.diameter = value("projectile.diameter") ?? (start["projectile.diameter"] as number);
  return numbers;
};

const pictureHeight = (width: number) => Math.round(width < 480 ? width * 0.95 : Math.min(620, width * 0.86));

const placeAll = (kind: Kind, numbers: Numbers, width: number) => {
  const drawing = drawMachine(kind, numbers);
  const projection = project(drawing, width, pictureHeight(width), width < 480 ? 40 : 66);
  return { drawing, projection, placed: drawing.pointers.map((each) => placePointer(each, projection)) };
};

/**
 * Which field stands on which side, and in which order: by where its letter is on the kind's example. Fixed
 * for the kind, so that no field moves while its number is typed.
 */
function arrange(kind: Kind): Arrangement {
  const start = startingValues(kind);
  const { placed } = placeAll(
    kind,
    numbersFor(kind, (path) => start[path] ?? null),
    600,
  );
  const spots = new Map(placed.map((each) => [each.pointer.name, each.letter]));
  const fields = machineFields(kind).filter((spec) => spots.has(parameterOf(spec)));
  const spotOf = (spec: FieldSpec) => spots.get(parameterOf(spec)) as readonly [number, number];
  const byX = [...fields].sort((a, b) => spotOf(a)[0] - spotOf(b)[0]);
  const byY = (a: FieldSpec, b: FieldSpec) => spotOf(a)[1] - spotOf(b)[1];
  const middle = Math.ceil(byX.length / 2);
  const [left, right] = [byX.slice(0, middle).sort(byY), byX.slice(middle).sort(byY)];
  const letters = Object.fromEntries(
    [...left, ...right].map((spec, index) => [parameterOf(spec), String.fromCharCode(65 + index)]),
  );
  return { left, right, letters };
}

export function MachineEntry({
  kind,
  system,
  quantity,
  onQuantity,
  errors,
  onVisited,
}: {
  kind: Kind;
  system: UnitSystem;
  quantity: (path: string) => Quantity;
  onQuantity: (path: string, quantity: Quantity) => void;
  errors: FieldErrors;
  onVisited: (path: string) => void;
}) {
  const [width, setWidth] = useState(600);
  const [active, setActive] = useState<string | null>(null);
  const stage = useRef<HTMLDivElement>(null);
  const frame = useRef<HTMLDivElement>(null);
  const arrangement = useMemo(() => arrange(kind), [kind]);
  const title = machineKind(kind).title;
  // By value: only numbers that change the drawing draw it anew.
  const drawn = JSON.stringify(numbersFor(kind, (path) => quantity(path).value));
  const { drawing, projection, placed } = useMemo(
    () => placeAll(kind, JSON.parse(drawn), width),
    [kind, drawn, width],
  );

  useLayoutEffect(() => {
    const element = frame.current;
    if (!element) return;
    const measure = () => setWidth(Math.max(260, Math.round(element.clientWidth)));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  const activeSpec = active ? machineFields(kind).find((spec) => parameterOf(spec) === active) : undefined;
  const column = (fields: readonly FieldSpec[], side: "left" | "right") => (
    <div className={`entry-column entry-${side}`}>
      {fields.map((spec) => (
        <ParameterField
          key={spec.path}
          spec={spec}
          letter={arrangement.letters[parameterOf(spec)] ?? ""}
          quantity={quantity(spec.path)}
          error={errors[spec.path] ?? null}
          onQuantity={onQuantity}
          onFocus={() => setActive(parameterOf(spec))}
          onBlur={() => {
            setActive(null);
            onVisited(spec.path);
          }}
        />
      ))}
    </div>
  );

  return (
    <div className="entry" ref={stage}>
      <div className="entry-drawing">
        <div ref={frame}>
          <MachinePicture
            drawing={drawing}
            projection={projection}
            placed={placed}
            letters={arrangement.letters}
            active={active}
            system={system}
            title={title}
          />
        </div>
        <p className="entry-hint">
          {activeSpec
            ? `${arrangement.letters[active as string]} · ${activeSpec.label}. ${activeSpec.help}`
            : `${drawing.note} Where a number is missing, the example's is drawn.`}
        </p>
      </div>
      {column(arrangement.left, "left")}
      {column(arrangement.right, "right")}
      <Leaders stage={stage} frame={frame} placed={placed} active={active} />
    </div>
  );
}

function ParameterField({
  spec,
  letter,
  quantity,
  error,
  onQuantity,
  onFocus,
  onBlur,
}: {
  spec: FieldSpec;
  letter: string;
  quantity: Quantity;
  error: string | null;
  onQuantity: (path: string, quantity: Quantity) => void;
  onFocus: () => void;
  onBlur: () => void;
}) {
  const change = useCallback((next: Quantity) => onQuantity(spec.path, next), [onQuantity, spec.path]);
  return (
    <div className="entry-field" data-parameter={parameterOf(spec)}>
      <QuantityField
        id={fieldId(spec.path)}
        label={
          <>
            <span className="entry-letter">{letter}</span> {spec.label}
          </>
        }
        fieldName={spec.label}
        dimension={spec.dimension}
        quantity={quantity}
        onChange={change}
        help={spec.help}
        optional={spec.optional}
        error={error}
        onFocus={onFocus}
        onBlur={onBlur}
      />
    </div>
  );
}

/** Leader lines from the fields beside the drawing to their letters; none where the fields are below it. */
function Leaders({
  stage,
  frame,
  placed,
  active,
}: {
  stage: React.RefObject<HTMLDivElement | null>;
  frame: React.RefObject<HTMLDivElement | null>;
  placed: readonly PlacedPointer[];
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
      for (const { pointer, letter } of placed) {
        const input = outer
          .querySelector(`[data-parameter="${pointer.name}"] input`)
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
        next.push({ name: pointer.name, d: `M${from[0]} ${from[1]}H${turn}L${end}` });
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
