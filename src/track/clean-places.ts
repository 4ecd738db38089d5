/**
 * Which fixes carry a mark? Input: a mask with one slot for each fix. Output: the indices of the
 * slots that hold a given code, rising.
 */

/** Indices of the slots of `mask` that hold `code`, rising. Fails: never. */
export function placesOf(mask: Uint8Array, code: number): Int32Array {
  const places = new Int32Array(mask.length);
  let count = 0;
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] !== code) continue;
    places[count] = i;
    count += 1;
  }
  return places.subarray(0, count);
}
