/** Hears from the server that something new arrived, so that an open screen need not ask again and again. */

/** Listens until the returned function is called; `lost` tells that the browser has given up. */
export function listenForNews(after: number, arrived: () => void, lost: () => void): () => void {
  const source = new EventSource(`/api/events?after=${after}`);
  source.onmessage = arrived;
  source.onerror = () => {
    if (source.readyState === EventSource.CLOSED) lost();
  };
  return () => source.close();
}
