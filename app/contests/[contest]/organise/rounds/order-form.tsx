"use client";
/** The firing order of the next round: each round starts one later, and every place can be moved by hand. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { WriteForm } from "@/app/_ui/write/write-form";
import styles from "../organise.module.css";

interface Turn {
  id: string;
  name: string;
  number: number;
  team: string;
}

export function OrderForm({
  slug,
  round,
  machines,
}: {
  slug: string;
  round: number;
  machines: readonly Turn[];
}) {
  const first = (round - 1) % machines.length;
  const [order, setOrder] = useState<readonly Turn[]>([
    ...machines.slice(first),
    ...machines.slice(0, first),
  ]);
  const [out, setOut] = useState<readonly Turn[]>([]);
  const move = (index: number, by: number) => {
    const next = [...order];
    const [turn] = next.splice(index, 1);
    if (turn) next.splice(index + by, 0, turn);
    setOrder(next);
  };
  return (
    <WriteForm<{ round: number }>
      label={`Make the order of round ${round}`}
      url={`/api/v1/contests/${slug}/rounds`}
      body={() =>
        order.length === 0
          ? "Order: leave at least one machine in."
          : { round, machineIds: order.map(({ id }) => id) }
      }
      submit={`Make round ${round}`}
      done={() => <p>Round {round} is made. The first shot is up.</p>}
    >
      {() => (
        <>
          <ol className={styles.order}>
            {order.map((turn, index) => (
              <li key={turn.id}>
                <span>
                  {index + 1}. <strong>{turn.number}</strong> {turn.team}, {turn.name}
                </span>
                <Button disabled={index === 0} onClick={() => move(index, -1)}>
                  Earlier<span className="aloud">: {turn.team}</span>
                </Button>
                <Button disabled={index === order.length - 1} onClick={() => move(index, 1)}>
                  Later<span className="aloud">: {turn.team}</span>
                </Button>
                <Button
                  onClick={() => {
                    setOrder(order.filter(({ id }) => id !== turn.id));
                    setOut([...out, turn]);
                  }}
                >
                  Leave out<span className="aloud"> {turn.team}</span>
                </Button>
              </li>
            ))}
          </ol>
          {out.length > 0 && (
            <>
              <h3>Left out</h3>
              <ul className={styles.order}>
                {out.map((turn) => (
                  <li key={turn.id}>
                    <span>
                      <strong>{turn.number}</strong> {turn.team}, {turn.name}
                    </span>
                    <Button
                      onClick={() => {
                        setOut(out.filter(({ id }) => id !== turn.id));
                        setOrder([...order, turn]);
                      }}
                    >
                      Put in<span className="aloud"> {turn.team}</span>
                    </Button>
                  </li>
                ))}
              </ul>
            </>
          )}
        </>
      )}
    </WriteForm>
  );
}
