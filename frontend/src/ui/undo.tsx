/** The undo bar: says what was just kept, and takes it back with one tap. */

export function UndoBar({ words, undo, onUndo }: { words: string; undo: string; onUndo: () => void }) {
  return (
    <div class="undo" role="status">
      <p>{words}</p>
      <button type="button" class="button" onClick={onUndo}>
        {undo}
      </button>
    </div>
  );
}
