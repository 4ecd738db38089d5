/**
 * Remarks on a visit: written, pinned to a moment or not, taken out, and those of two copies united.
 *
 * In: visits. Out: the visit as it is after the change. A remark that is taken out leaves its id and the
 * time behind, so that an old copy does not bring it back.
 */
import type { Remark, RemovedRemark, VisitRecord } from './entry.ts';
import { surelyAfter } from './entered-fields.ts';
import { grouped, newestOf } from './newest.ts';

/** The visit with one more remark; those pinned to a moment in the order of their moments. */
export function addRemark(visit: VisitRecord, remark: Remark): VisitRecord {
  const remarks = inOrder([...visit.remarks, remark]);
  return { ...visit, changedS: remark.writtenS, remarks };
}

/** The visit without a remark; as it was where there is none of that id. */
export function removeRemark(visit: VisitRecord, id: string, nowS: number): VisitRecord {
  const gone = visit.remarks.find((each) => each.id === id);
  if (!gone) return visit;
  const removed = { id, removedS: surelyAfter(nowS, gone.writtenS) };
  return {
    ...visit,
    changedS: nowS,
    remarks: visit.remarks.filter((each) => each !== gone),
    removedRemarks: lastRemovals([...visit.removedRemarks, removed]),
  };
}

/**
 * The remarks of two copies of one visit: all of both, each once. Of one remark in two wordings the one
 * written later; one that was taken out after it was written stays out, and where it was written again
 * after that, or in the same instant, it stays in.
 */
export function uniteRemarks(
  a: VisitRecord,
  b: VisitRecord,
): Pick<VisitRecord, 'remarks' | 'removedRemarks'> {
  const removedRemarks = lastRemovals([...a.removedRemarks, ...b.removedRemarks]);
  const removedS = new Map(removedRemarks.map((each) => [each.id, each.removedS]));
  const written = grouped([...a.remarks, ...b.remarks], ({ id }) => id).map((same) =>
    newestOf(same, ({ writtenS }) => writtenS),
  );
  const remarks = written.filter(({ id, writtenS }) => writtenS >= (removedS.get(id) ?? 0));
  return { remarks: inOrder(remarks), removedRemarks };
}

/** Those about the whole visit first, then by their moments; ids tell apart what is of one instant. */
function inOrder(remarks: readonly Remark[]): Remark[] {
  return remarks.toSorted(
    (a, b) =>
      (a.timeS ?? -1) - (b.timeS ?? -1) || a.writtenS - b.writtenS || (a.id < b.id ? -1 : 1),
  );
}

function lastRemovals(removed: readonly RemovedRemark[]): RemovedRemark[] {
  return grouped(removed, ({ id }) => id)
    .map((same) => newestOf(same, ({ removedS }) => removedS))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}
