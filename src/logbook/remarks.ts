/**
 * Remarks on a visit: written, pinned to a moment or not, taken out.
 *
 * In: a visit. Out: the visit as it is after the change.
 */
import type { Remark, VisitRecord } from './entry.ts';

/** The visit with one more remark; those pinned to a moment in the order of their moments. */
export function addRemark(visit: VisitRecord, remark: Remark): VisitRecord {
  const remarks = [...visit.remarks, remark].sort(
    (a, b) => (a.timeS ?? -Infinity) - (b.timeS ?? -Infinity) || a.writtenS - b.writtenS,
  );
  return { ...visit, changedS: remark.writtenS, remarks };
}

/** The visit without a remark; as it was where there is none of that id. */
export function removeRemark(visit: VisitRecord, id: string, nowS: number): VisitRecord {
  const remarks = visit.remarks.filter((each) => each.id !== id);
  return remarks.length === visit.remarks.length ? visit : { ...visit, changedS: nowS, remarks };
}
