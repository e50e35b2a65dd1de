// What of the page's texts is cut off or sticks out: one sentence for each.
() => {
  const wide = document.documentElement.clientWidth;
  const faults = [];
  const name = (node) => `${node.tagName.toLowerCase()}.${node.className} “${node.textContent.trim().slice(0, 60)}”`;
  const scrolls = (node) => {
    for (let up = node; up !== null; up = up.parentElement)
      if (["auto", "scroll"].includes(getComputedStyle(up).overflowX)) return true;
    return false;
  };
  const unseen = (node) => {
    const { clipPath, clip } = getComputedStyle(node);
    return node.closest("[aria-hidden=true]") !== null || clipPath !== "none" || clip !== "auto";
  };
  // rows out of sight are laid out only when they come into sight; here all of them count
  for (const node of document.querySelectorAll("body *"))
    if (getComputedStyle(node).contentVisibility === "auto") node.style.contentVisibility = "visible";
  // the bar names the vehicle on one line, the card's own page whole; the how-to begins with two lines, a tap shows all
  const shortened = (node) => node.closest(".kept-where, button.how") !== null;
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  if (document.documentElement.scrollWidth > wide) faults.push("the page scrolls sideways");
  while (texts.nextNode()) {
    const node = texts.currentNode.parentElement;
    if (texts.currentNode.data.trim() === "" || node.closest("noscript, style, script, svg")) continue;
    if (unseen(node) || shortened(node)) continue;
    const range = document.createRange();
    range.selectNodeContents(texts.currentNode);
    const text = range.getBoundingClientRect();
    if (text.width === 0 || scrolls(node)) continue;
    if (text.left < -1 || text.right > wide + 1) faults.push(`beside the screen: ${name(node)}`);
    const box = node.closest("button, a.button, .button, summary, td, th");
    const frame = box?.getBoundingClientRect();
    if (frame && (text.left < frame.left - 1 || text.right > frame.right + 1 || text.bottom > frame.bottom + 1))
      faults.push(`out of its button: ${name(box)}`);
    if (box)
      for (const { 0: word, index } of texts.currentNode.data.matchAll(/[\p{L}\p{N}]+/gu)) {
        range.setStart(texts.currentNode, index);
        range.setEnd(texts.currentNode, index + word.length);
        if (new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1)
          faults.push(`broken inside “${word}”: ${name(box)}`);
      }
    for (let up = node; up !== null; up = up.parentElement) {
      const { overflowX, overflowY } = getComputedStyle(up);
      if (overflowX === "hidden" && up.scrollWidth > up.clientWidth + 1) faults.push(`cut off at the side: ${name(up)}`);
      if (overflowY === "hidden" && up.scrollHeight > up.clientHeight + 2) faults.push(`cut off below: ${name(up)}`);
    }
  }
  return [...new Set(faults)];
}
