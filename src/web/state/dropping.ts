/** A file that falls beside the places for files is not opened by the browser in the page's stead. */
export function guardDrops(): void {
  window.addEventListener("dragover", refuse);
  window.addEventListener("drop", refuse);
}

function refuse(event: DragEvent): void {
  if (event.defaultPrevented || !event.dataTransfer?.types.includes("Files")) return; // somebody takes it
  event.preventDefault();
  event.dataTransfer.dropEffect = "none";
}
