/** Gives every test file an IndexedDB of its own, and effects that run before the page they belong to is gone. */
import "fake-indexeddb/auto";
import { options } from "preact";

// Screens are tested one by one, without the door that brings their words.
import "../src/screens/bay/card-words";

// Left to itself Preact waits up to 35 ms for a frame; by then the last test of a file may have taken its page along.
options.requestAnimationFrame = (run) => queueMicrotask(run);
