/** All texts of this language in one file, loaded when it is spoken. */
import bay from "./bay.json";
import card from "./card.json";
import common from "./common.json";
import desk from "./desk.json";
import sync from "./sync.json";

export default { ...common, ...bay, ...card, ...desk, ...sync };
