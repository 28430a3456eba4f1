/** A table with its caption; wide ones scroll in their own frame, by keyboard too, never the page. */
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
}: {
  caption: string;
  hideCaption?: boolean;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  rowKey: (row: Row, index: number) => string | number;
  /** Said in place of rows when there are none. */
  empty?: ReactNode;
}) {
  return (
    <div className="table-frame" role="region" aria-label={caption} tabIndex={0}>
      <table className="table">
        <caption className={hideCaption ? "aloud" : undefined}>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.key} scope="col" className={column.number ? "number" : undefined}>
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.length === 0 && empty ? (
            <tr>
              <td colSpan={columns.length}>{empty}</td>
            </tr>
          ) : null}
          {rows.map((row, index) => (
            <tr key={rowKey(row, index)}>
              {columns.map((column) =>
                column.rowHead ? (
                  <th key={column.key} scope="row" className={column.number ? "number" : undefined}>
                    {column.cell(row, index)}
                  </th>
                ) : (
                  <td key={column.key} className={column.number ? "number" : undefined}>
                    {column.cell(row, index)}
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
