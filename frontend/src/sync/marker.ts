/** A cookie that says this browser once kept work here. It outlives the store, and so betrays that the store was cleared. */

export type Marker = { isSet(): boolean; set(): void };

const NAME = "baycard-kept";
const SECONDS = 400 * 86_400;

export function cookieMarker(page: Pick<Document, "cookie">): Marker {
  return {
    isSet: () => page.cookie.split("; ").includes(`${NAME}=1`),
    set: () => {
      page.cookie = `${NAME}=1; Max-Age=${SECONDS}; Path=/; SameSite=Strict`;
    },
  };
}
