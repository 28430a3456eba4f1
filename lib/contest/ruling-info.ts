/** A ruling as it is sent. */
import type { RulingInfo } from "../api/contracts";

interface RulingRow {
  id: string;
  entrantId: string | null;
  shotId: string | null;
  protestId: string | null;
  fixId: string | null;
  decision: string;
  reason: string;
  badge: { label: string };
  sequence: number;
  createdAt: Date;
}

export function rulingInfo(row: RulingRow): RulingInfo {
  return {
    id: row.id,
    entrantId: row.entrantId,
    shotId: row.shotId,
    protestId: row.protestId,
    fixId: row.fixId,
    decision: row.decision as RulingInfo["decision"],
    reason: row.reason,
    by: row.badge.label,
    sequence: row.sequence,
    createdAt: row.createdAt.toISOString(),
  };
}
