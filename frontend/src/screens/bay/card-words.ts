/** The words of an open card: a phone does not need them for its first screen, so they come with the card's screens. */
import card from "../../words/en/card.json";
import { addWords } from "../../words/words";

addWords(card);
