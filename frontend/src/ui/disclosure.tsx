/** Something one tap away: a row that opens its content below itself. */
import type { ComponentChildren } from "preact";

export function Disclosure({
  title,
  children,
  open = false,
}: {
  title: ComponentChildren;
  children: ComponentChildren;
  open?: boolean;
}) {
  return (
    <details open={open}>
      <summary class="open">
        <span>{title}</span>
      </summary>
      <div class="open-body stack">{children}</div>
    </details>
  );
}
