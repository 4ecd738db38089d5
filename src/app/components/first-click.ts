/** What is done at the first click of a double click only. */

/**
 * A handler that takes no second click of a double click: by then the list has moved up, and the pointer
 * is over the next thing to remove. Keys count as first clicks.
 */
export function firstClick(act: () => void): (event: MouseEvent) => void {
  return ({ detail }) => {
    if (detail < 2) act();
  };
}
