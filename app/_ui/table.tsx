/**
 * A table with its caption; wide ones scroll in their own frame, by keyboard too, never the page. One that `stacks` is
 * a list on a phone: a block a row, each value behind its column's head, nothing to scroll to.
 */
import type { ReactNode } from "react";

export interface Column<Row> {
  key: string;
  head: ReactNode;
  cell: (row: Row, index: number) => ReactNode;
  /** Right-aligned figures. */
  number?: boolean;
  /** Names the row. */
  rowHead?: boolean;
}

export function Table<Row>({
  caption,
  hideCaption,
  columns,
  rows,
  rowKey,
  empty,
  stacks = false,
}: {
  caption: string;
  hideCaption?: boolean;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  rowKey: (row: Row, index: number) => string | number;
  /** Said in place of rows when there are none. */
  empty?: ReactNode;
  /** For rows that are read or changed one by one, rather than compared. */
  stacks?: boolean;
}) {
  // What is laid out as blocks would be no table any more to those who hear it.
  const role = (name: string) => (stacks ? name : undefined);
  const inCell = (column: Column<Row>, row: Row, index: number) =>
    stacks && !column.rowHead ? (
      <>
        <span className="cell-head">{column.head}</span>
        <div>{column.cell(row, index)}</div>
      </>
    ) : (
      column.cell(row, index)
    );
  return (
    <div className="table-frame" role="region" aria-label={caption} tabIndex={0}>
      <table className={stacks ? "table table-stacks" : "table"} role={role("table")}>
        <caption className={hideCaption ? "aloud" : undefined}>{caption}</caption>
        <thead role={role("rowgroup")}>
          <tr role={role("row")}>
            {columns.map((column) => (
              <th
                key={column.key}
                scope="col"
                role={role("columnheader")}
                className={column.number ? "number" : undefined}
              >
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role={role("rowgroup")}>
          {rows.length === 0 && empty ? (
            <tr role={role("row")}>
              <td role={role("cell")} colSpan={columns.length}>
                {empty}
              </td>
            </tr>
          ) : null}
          {rows.map((row, index) => (
            <tr key={rowKey(row, index)} role={role("row")}>
              {columns.map((column) =>
                column.rowHead ? (
                  <th
                    key={column.key}
                    scope="row"
                    role={role("rowheader")}
                    className={column.number ? "number" : undefined}
                  >
                    {inCell(column, row, index)}
                  </th>
                ) : (
                  <td key={column.key} role={role("cell")} className={column.number ? "number" : undefined}>
                    {inCell(column, row, index)}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
