/** Drawing on a copy of a photo: ring, arrow, hatch and words. Kept or left, the copy becomes a photo of its own. */
import { useEffect, useRef, useState } from "preact/hooks";
import { drawMarks, markOf, pointIn, type MarkTool, type PhotoMark, type Point } from "../../capture/marks";
import type { EntryOf } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { Overlay } from "../../ui/overlay";
import type { OpenCard } from "./open-card";
import { Trouble } from "./photos";
import { say } from "./say";
import { useTaking } from "./taking";

type Tool = MarkTool | "text";
const TOOLS: readonly Tool[] = ["ring", "arrow", "hatch", "text"];
type Props = { card: OpenCard; photo: EntryOf<"photo">; src: string; onClose: () => void };

export function PhotoMarking({ card, photo, src, onClose }: Props) {
  const [tool, setTool] = useState<Tool>("ring");
  const [words, setWords] = useState("");
  const [marks, setMarks] = useState<readonly PhotoMark[]>([]);
  const board = useRef<HTMLCanvasElement>(null);
  const { about, round, caption } = photo.body;
  const marked = [caption, say("photo-marked")].filter(Boolean).join(", ");
  const { taking, trouble, take } = useTaking({ card, about, round, caption: marked });
  const keep = () => {
    board.current?.toBlob((copy) => copy && void take(copy).then(onClose), "image/jpeg", 0.92);
  };
  const leave = () => {
    if (marks.length === 0) onClose();
    else if (taking === 0) keep();
  };
  return (
    <Overlay name={say("photo-mark")} onClose={leave}>
      <Board
        board={board}
        src={src}
        marks={marks}
        tool={tool}
        words={words}
        onMark={(mark) => setMarks([...marks, mark])}
      />
      <Trouble trouble={trouble} />
      {tool === "text" ? (
        <Field label={say("mark-words")} hint={say("mark-words-hint")} value={words} onType={setWords} />
      ) : null}
      <div class="finder-acts marking">
        {TOOLS.map((one) => (
          <Button key={one} pressed={tool === one} onTap={() => setTool(one)}>
            {say(`mark-${one}`)}
          </Button>
        ))}
        <Button calm onTap={leave}>
          {say("back")}
        </Button>
        <Button disabled={marks.length === 0} onTap={() => setMarks(marks.slice(0, -1))}>
          {say("undo")}
        </Button>
        <Button look="strong" calm disabled={marks.length === 0 || taking > 0} onTap={keep}>
          {say(taking > 0 ? "photo-busy" : "mark-keep")}
        </Button>
      </div>
    </Overlay>
  );
}

type BoardProps = {
  board: { current: HTMLCanvasElement | null };
  src: string;
  marks: readonly PhotoMark[];
  tool: Tool;
  words: string;
  onMark: (mark: PhotoMark) => void;
};

function Board({ board, src, marks, tool, words, onMark }: BoardProps) {
  const picture = usePicture(src);
  const [drag, setDrag] = useState<{ from: Point; to: Point } | null>(null);
  const begun = drag && tool !== "text" ? markOf(tool, drag.from, drag.to) : null;
  useEffect(() => paint(board.current, picture, begun ? [...marks, begun] : marks), [picture, marks, begun]);
  const at = (event: PointerEvent): Point =>
    pointIn((event.currentTarget as HTMLCanvasElement).getBoundingClientRect(), event.clientX, event.clientY);
  const end = () => {
    if (begun) onMark(begun);
    setDrag(null);
  };
  return (
    <div class="board">
      <canvas
        ref={board}
        role="img"
        aria-label={say("mark-board")}
        width={picture?.naturalWidth ?? 4}
        height={picture?.naturalHeight ?? 3}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          const from = at(event);
          if (tool !== "text") setDrag({ from, to: from });
          else if (words.trim() !== "") onMark({ is: "text", at: from, words: words.trim() });
        }}
        onPointerMove={(event) => drag && setDrag({ from: drag.from, to: at(event) })}
        onPointerUp={end}
        onPointerCancel={() => setDrag(null)}
      />
    </div>
  );
}

function usePicture(src: string): HTMLImageElement | null {
  const [picture, setPicture] = useState<HTMLImageElement | null>(null);
  useEffect(() => {
    if (src === "") return;
    const image = new Image();
    image.onload = () => setPicture(image);
    image.src = src;
  }, [src]);
  return picture;
}

function paint(
  board: HTMLCanvasElement | null,
  picture: HTMLImageElement | null,
  marks: readonly PhotoMark[],
): void {
  const pen = board?.getContext("2d");
  if (!board || !pen || !picture) return;
  pen.drawImage(picture, 0, 0, board.width, board.height);
  drawMarks(pen, marks, board);
}
